import { Fault } from '../../errors.ts'

/** True of a programme that could not be built for its wishes: each of them says so on their page, with what would resolve it. */
export const isOfWishes = (error: unknown): boolean => error instanceof Fault && error.key === 'fault.wishes'
