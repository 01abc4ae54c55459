/** What stands on a skid, as far as readings and events refer to it. */
export interface SkidMachines {
  readonly positions: readonly { readonly id: string; readonly name: string; readonly kind: string; readonly ended: boolean }[];
  readonly meters: readonly {
    readonly id: string;
    readonly kind: string;
    /** The value at which the display begins again at 0 */
    readonly modulus: number | null;
    readonly positionId: string;
    readonly positionName: string;
    readonly ended: boolean;
  }[];
  readonly tanks: readonly { readonly id: string; readonly name: string; readonly chemical: string; readonly heightM: number; readonly ended: boolean }[];
}
