/** Why a press of a button had no effect; nothing where it had. */
export function Refusal({ problem }: { problem: string }) {
  return problem === '' ? null : (
    <p role="alert" className="fix">
      {problem}
    </p>
  );
}
