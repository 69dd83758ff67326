/** The part of the package that is used here; it comes without types. */
declare module 'magvar' {
  export function calculateMagneticField(
    decimalYear: number,
    latitudeDeg: number,
    longitudeDeg: number,
    heightKm: number,
  ): { readonly declination: number; readonly h: number }
}
