/** A place on the ground: latitude north positive, longitude east positive (WGS84), height above the sea. */
export interface Place {
  readonly latitudeDeg: number
  readonly longitudeDeg: number
  readonly heightM: number
}
