export interface Person {
  readonly id: string;
  readonly roles: readonly string[];
}

/** Who plans the floor: by DESIGN the front desk and the manager; an administrator may do what a manager may. */
export const mayPlan = (person: Person): boolean =>
  person.roles.some((role) => role === 'front-desk' || role === 'manager' || role === 'administrator');
