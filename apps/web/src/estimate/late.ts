import { createContext, useContext } from 'react';

export type LateParts = typeof import('./late-parts.js');
export const loadLateParts = (): Promise<LateParts> => import('./late-parts.js');

const Late = createContext<LateParts | null>(null);
export const LateProvider = Late.Provider;
/** Null until they are there. */
export const useLateParts = (): LateParts | null => useContext(Late);
