/** What a skid is kept for at present. Standby, with the product tank full, is an operating condition and none of these. */
export const SERVICE_STATES = ['being commissioned', 'in service', 'laid up', 'out of service', 'retired'] as const;
export type ServiceState = (typeof SERVICE_STATES)[number];
