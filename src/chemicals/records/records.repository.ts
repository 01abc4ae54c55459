/** Rows of what people enter about tanks, as the database gives them. */
export type { TankAssay, TankUser } from '../../generated/prisma/client.js';
