/** Where to go after the sign-in: back to the page of ours that asked for it, else to the board. */
export function nextPage(next: string | null): string {
  // Only paths of this server's own pages: an address from a letter must not lead elsewhere after a sign-in.
  return next !== null && /^\/(board|estimate|calendar|plan|when|what-if)(\?[^\\]*)?$/.test(next)
    ? next
    : '/board';
}
