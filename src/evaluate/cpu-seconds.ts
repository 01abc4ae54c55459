/** CPU time of this process since its start, in seconds: what a machine that is busy otherwise does not stretch. */
export function cpuSeconds(): number {
  const { user, system } = process.cpuUsage();
  return (user + system) / 1e6;
}
