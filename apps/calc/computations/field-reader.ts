import { fail, type Failed, type Result } from '#libs/kernel';

interface WholeRange {
  readonly min?: number;
  readonly max?: number;
}

/**
 * Reads the fields of one element and notes everything that is wrong with it, so that one look is enough to mend it. A
 * getter gives a harmless stand-in for a bad field; `answer` hands out the faults before anything is computed from it.
 */
export class FieldReader {
  private readonly faults: { field: string; code: string; detail: string }[] = [];
  private readonly fields: ReadonlyMap<string, unknown>;

  constructor(
    element: unknown,
    private readonly path = '',
  ) {
    if (typeof element === 'object' && element !== null && !Array.isArray(element)) {
      this.fields = new Map(Object.entries(element));
    } else {
      this.fields = new Map();
      const what = path === '' ? 'An element' : this.named('');
      this.note('', 'not-an-object', `${what} must be an object such as {"name": value}.`);
    }
  }

  text(field: string): string {
    const value = this.required(field);
    if (typeof value === 'string') return value;
    if (value !== undefined) this.invalid(field, 'must be a text in double quotes');
    return '';
  }

  /** A text that names something, so it cannot be empty. */
  id(field: string): string {
    const value = this.text(field);
    if (value === '' && this.fields.get(field) === '') this.invalid(field, 'must not be empty');
    return value;
  }

  whole(field: string, range: WholeRange = {}): number {
    const value = this.required(field);
    return value === undefined ? 0 : this.readWhole(field, value, range);
  }

  optionalWhole(field: string, range: WholeRange = {}): number | undefined {
    const value = this.fields.get(field) ?? undefined;
    return value === undefined ? undefined : this.readWhole(field, value, range);
  }

  optionalNumber(field: string): number | undefined {
    const value = this.fields.get(field) ?? undefined;
    if (value === undefined || typeof value === 'number') return value;
    this.invalid(field, 'must be a number without quotes');
    return undefined;
  }

  /** A number, or a text that is to be read as one. */
  numberOrText(field: string): number | string {
    const value = this.required(field);
    if (typeof value === 'string' || (typeof value === 'number' && Number.isFinite(value))) return value;
    if (value !== undefined) this.invalid(field, 'must be a number such as 50 or "33.5"');
    return 0;
  }

  /** One of `allowed`; a field with a `standIn` may be left out. */
  oneOf<T extends string>(field: string, allowed: readonly [T, ...T[]], standIn?: T): T {
    const value = standIn === undefined ? this.required(field) : (this.fields.get(field) ?? standIn);
    const found = allowed.find((name) => name === value);
    if (found !== undefined) return found;
    if (value !== undefined)
      this.invalid(field, `must be one of ${allowed.map((name) => `"${name}"`).join(', ')}`);
    return allowed[0];
  }

  list(field: string): readonly unknown[] {
    const value = this.required(field);
    if (Array.isArray(value)) return value as unknown[];
    if (value !== undefined) this.invalid(field, 'must be a list in square brackets');
    return [];
  }

  texts(field: string): string[] {
    return this.list(field).map((value, index) => {
      if (typeof value === 'string') return value;
      this.invalid(`${field}[${index}]`, 'must be a text in double quotes');
      return '';
    });
  }

  /** A list of texts that may be left out. */
  optionalTexts(field: string): string[] {
    return this.fields.get(field) == null ? [] : this.texts(field);
  }

  /** True or false; false when it is left out. */
  optionalFlag(field: string): boolean {
    const value = this.fields.get(field) ?? false;
    if (typeof value === 'boolean') return value;
    this.invalid(field, 'must be true or false, without quotes');
    return false;
  }

  /** Objects in a list, each read by `read`; what is wrong in them is noted here, with its place. */
  objects<T>(field: string, read: (reader: FieldReader) => T): T[] {
    return this.list(field).map((value, index) => {
      const reader = new FieldReader(value, `${this.path}${field}[${index}].`);
      const item = read(reader);
      this.faults.push(...reader.faults);
      return item;
    });
  }

  /** A list of objects that may be left out. */
  optionalObjects<T>(field: string, read: (reader: FieldReader) => T): T[] {
    return this.has(field) ? this.objects(field, read) : [];
  }

  /** An object, read by `read`; what is wrong in it is noted here, with its place. */
  object<T>(field: string, read: (reader: FieldReader) => T): T {
    const value = this.required(field);
    const reader = new FieldReader(value, `${this.path}${field}.`);
    const item = read(reader);
    // That it is missing has been said, and nothing more can be said of it.
    if (value !== undefined) this.faults.push(...reader.faults);
    return item;
  }

  /** An object that may be left out; null then. */
  optionalObject<T>(field: string, read: (reader: FieldReader) => T): T | null {
    return this.has(field) ? this.object(field, read) : null;
  }

  /** Whether a field is there and not null. */
  has(field: string): boolean {
    return this.fields.get(field) != null;
  }

  isObject(field: string): boolean {
    const value = this.fields.get(field);
    return typeof value === 'object' && value !== null && !Array.isArray(value);
  }

  /** Pairs of whole numbers: [[1, 2], [5, 9]]. */
  pairs(field: string, range: WholeRange): (readonly [number, number])[] {
    return this.list(field).map((value, index): readonly [number, number] => {
      const name = `${field}[${index}]`;
      if (Array.isArray(value) && value.length === 2)
        return [this.readWhole(name, value[0], range), this.readWhole(name, value[1], range)];
      this.invalid(name, 'must be two whole numbers in square brackets');
      return [0, 0];
    });
  }

  /** A list of whole numbers. */
  wholesIn(field: string, range: WholeRange): number[] {
    return this.list(field).map((value, index) => this.readWhole(`${field}[${index}]`, value, range));
  }

  /** Every field of this object as a whole number. */
  wholes(range: WholeRange): Record<string, number> {
    return Object.fromEntries(
      [...this.fields].map(([name, value]) => [name, this.readWhole(name, value, range)] as const),
    );
  }

  /** Passes a lib's reading of a text on, and notes its refusal under the field's name. */
  parsed<T>(field: string, result: Result<T>, standIn: T): T {
    if (result.ok) return result.value;
    // A field that was already refused for its shape needs no second complaint.
    if (!this.isRefused(field)) {
      this.note(field, result.fault.code, `${this.named(field)}: ${result.fault.detail}`);
    }
    return standIn;
  }

  invalid(field: string, rule: string): void {
    this.note(field, 'field-invalid', `${this.named(field)} ${rule}.`);
  }

  isRefused(field: string): boolean {
    // What is no object has no fields to complain about either.
    return this.faults.some((fault) => fault.field === this.path + field || fault.field === this.path);
  }

  /** The computation's answer, or everything that is wrong with the element. */
  answer<T>(compute: () => Result<T>): Result<T> {
    return this.failed() ?? compute();
  }

  private failed(): Failed | null {
    const [first] = this.faults;
    return first === undefined ? null : fail(first.code, this.faults.map(({ detail }) => detail).join(' '));
  }

  private readWhole(field: string, value: unknown, { min, max }: WholeRange): number {
    const isWhole = typeof value === 'number' && Number.isSafeInteger(value);
    if (isWhole && value >= (min ?? value) && value <= (max ?? value)) return value === 0 ? 0 : value;
    const least = min === undefined ? '' : ` of at least ${min}`;
    const most = max === undefined ? '' : `${min === undefined ? ' of' : ' and'} at most ${max}`;
    this.invalid(field, `must be a whole number${least}${most}, without quotes`);
    return min ?? 0;
  }

  private required(field: string): unknown {
    const value = this.fields.get(field);
    if (value === undefined && this.faults[0]?.code !== 'not-an-object') {
      this.note(field, 'field-missing', `${this.named(field)} is missing: add it.`);
    }
    return value;
  }

  private named(field: string): string {
    return `"${this.path}${field}"`.replace('."', '"');
  }

  private note(field: string, code: string, detail: string): void {
    this.faults.push({ field: this.path + field, code, detail });
  }
}
