/** Later than every time of a problem: where work lies that has no place. Times stay below it with room for sums. */
export const FAR = 1 << 28;
