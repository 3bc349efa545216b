import type { Takings } from "./recurring-work-takings.ts";

/**
 * Ways of groups mixed at least cost: of each group one whole way, in parts, within what each row holds. The simplex method with one way
 * of each group as its key, so that the basis has a place for each row and none for each group (generalized upper bounding; Dantzig &
 * Van Slyke 1967, Journal of Computer and System Sciences 1; recalled). A basis is kept as its inverse.
 */
export interface Column {
  /** Below 0: what is left of a row. */
  readonly group: number;
  /** The days of each member of the group. */
  readonly days: readonly (readonly number[])[];
  readonly cost: number;
  /** Where what it takes stands among the `Takings`. */
  readonly from: number;
  readonly to: number;
}

export interface Share {
  readonly column: Column;
  readonly part: number;
}

/** A reduced cost nearer to 0 is none, and so is a part of the mixture. */
const none = 1e-7;
/** Columns come in that save this part of what the best one does. */
const share = 0.25;
/** Of what the best column saved at first: when those looked through save no more, all are looked through again. */
const spent = 0.1;
/** Keys are exchanged so many times for one column at most. */
const mostTurns = 40;

export class Simplex {
  /** What a row costs a unit at the mixture of now; below 0 in passing. */
  readonly price: Float64Array;
  readonly keys: Column[];
  /** Steps made. */
  steps = 0;
  /** Column by column, as most of what is multiplied with it is nothing: the figure of place `at` and row `row` stands at `row * size + at`. */
  private readonly inverse: Float64Array;
  private readonly size: number;
  /** In each place of the basis a column that is no key; undefined for what is left of a row. */
  private readonly basic: (Column | undefined)[];
  private readonly value: Float64Array;
  private readonly keyValue: Float64Array;
  /** What the keys cost at the prices with which columns were looked through last. */
  private readonly keyCost: Float64Array;
  private readonly takings: Takings;
  /** What is left of each row. */
  private readonly slack: readonly Column[];
  /** The places in the basis that each group has. */
  private readonly held: number[][];
  private readonly change: Float64Array;
  /** What a column takes more than the key of its group, by row. */
  private readonly more: Float64Array;
  private readonly rate: Float64Array;
  private readonly touched: number[] = [];

  /** @param keys a way of each group, which together take no more than the rows hold */
  constructor(holds: readonly number[], keys: readonly Column[], takings: Takings) {
    const size = holds.length;
    const all = new Float64Array(size).fill(1);
    this.takings = takings;
    this.slack = holds.map((_, row) => ({ group: -1, days: [], cost: 0, ...takings.add([row], all) }));
    this.keys = [...keys];
    this.size = size;
    this.inverse = new Float64Array(size * size);
    for (let row = 0; row < size; row++) this.inverse[row * size + row] = 1;
    this.basic = holds.map(() => undefined);
    this.value = Float64Array.from(holds);
    this.held = keys.map(() => []);
    this.keyValue = new Float64Array(keys.length).fill(1);
    this.keyCost = Float64Array.from(keys, ({ cost }) => cost);
    this.price = new Float64Array(size);
    this.change = new Float64Array(size);
    this.more = new Float64Array(size);
    this.rate = new Float64Array(keys.length);
    for (const { from, to } of keys)
      for (let at = from; at < to; at++) this.value[takings.rows[at]!]! -= takings.takes[at]!;
    for (let row = 0; row < size; row++) this.value[row] = Math.max(0, this.value[row]!);
  }

  /** What the mixture costs. */
  cost(): number {
    let sum = 0;
    for (let group = 0; group < this.keys.length; group++)
      sum += this.keys[group]!.cost * this.keyValue[group]!;
    for (let at = 0; at < this.value.length; at++) sum += (this.basic[at]?.cost ?? 0) * this.value[at]!;
    return sum;
  }

  /** By group: its ways, the largest part first. */
  shares(): Share[][] {
    const ways = this.keys.map((column, group): Share[] => [{ column, part: this.keyValue[group]! }]);
    this.basic.forEach((column, at) => {
      if (column !== undefined && this.value[at]! > none)
        ways[column.group]!.push({ column, part: this.value[at]! });
    });
    for (const each of ways) each.sort((a, b) => b.part - a.part);
    return ways;
  }

  /** By how much a column is cheaper than the key of its group, below 0, at the prices of now. */
  reduced = (column: Column): number =>
    this.priced(column) - (column.group < 0 ? 0 : this.priced(this.keys[column.group]!));

  private priced({ cost, from, to }: Column): number {
    const { price } = this;
    const { rows, takes } = this.takings;
    let sum = cost;
    for (let at = from; at < to; at++) sum += price[rows[at]!]! * takes[at]!;
    return sum;
  }

  /** Takes columns into the mixture while one makes it cheaper, those first that make it much cheaper. Whether any came in. */
  mix(columns: readonly Column[], mostSteps: number): boolean {
    const { price, keyCost } = this;
    let isBetter = false;
    for (;;) {
      this.reprice();
      // What is left of a row comes into the basis where its price is below nothing.
      for (let row = 0; row < price.length; row++)
        if (price[row]! < -none && this.enter(this.slack[row]!)) isBetter = true;
      for (let group = 0; group < keyCost.length; group++) keyCost[group] = this.priced(this.keys[group]!);
      const cheaper = columns.filter((column) => this.priced(column) - keyCost[column.group]! < -none);
      if (cheaper.length === 0 || !this.takeIn(cheaper, mostSteps)) return isBetter;
      isBetter = true;
    }
  }

  /** Goes through columns that were cheaper until few of them are, as most of all the others still are not. Whether any came in. */
  private takeIn(columns: readonly Column[], mostSteps: number): boolean {
    const saved = new Float64Array(columns.length);
    let isIn = false;
    for (let first = 0; ; ) {
      let most = 0;
      for (let at = 0; at < columns.length; at++) {
        saved[at] = this.reduced(columns[at]!);
        if (saved[at]! < most) most = saved[at]!;
      }
      first = Math.min(first, most);
      if (most >= Math.min(-none, first * spent)) return isIn;
      const wanted = Math.min(-none, most * share);
      let isMore = false;
      for (let at = 0; at < columns.length; at++) {
        if (saved[at]! > wanted || this.reduced(columns[at]!) > wanted) continue;
        if (this.steps >= mostSteps) return isIn;
        if (this.enter(columns[at]!)) isMore = true;
      }
      if (!isMore) return isIn;
      isIn = true;
    }
  }

  /** One column comes into the basis; whether it did. */
  private enter(column: Column): boolean {
    const { value, keyValue, held, change, rate, touched } = this;
    for (let turn = 0; turn < mostTurns; turn++) {
      this.steps++;
      this.solve(column);
      let step = Number.POSITIVE_INFINITY;
      let leaves = -1;
      for (let at = 0; at < value.length; at++) {
        if (change[at]! <= 1e-9) continue;
        const most = value[at]! / change[at]!;
        const isFirst = most < step - 1e-12;
        // Of equals the one that divides by more, as it rounds less.
        if (isFirst || (most < step + 1e-12 && change[at]! > change[leaves]!)) {
          step = isFirst ? most : Math.min(step, most);
          leaves = at;
        }
      }
      let key = -1;
      for (const group of touched) {
        if (rate[group]! >= -1e-9) continue;
        const most = keyValue[group]! / -rate[group]!;
        if (most >= step - 1e-12) continue;
        step = most;
        key = group;
      }
      if (step === Number.POSITIVE_INFINITY) return false;
      if (key >= 0 && held[key]!.length > 0) {
        this.swapKey(
          key,
          held[key]!.reduce((a, b) => (value[b]! > value[a]! ? b : a)),
        );
        continue;
      }
      for (let at = 0; at < value.length; at++) value[at] = Math.max(0, value[at]! - step * change[at]!);
      for (const group of touched) keyValue[group] = Math.max(0, keyValue[group]! + rate[group]! * step);
      if (key < 0) this.pivot(leaves, column, step);
      else {
        // Its only way gives way to the one that comes in; the basis stays, and so do the prices.
        this.keys[key] = column;
        keyValue[key] = step;
      }
      return true;
    }
    return false;
  }

  /** How the parts of the mixture change for one of a column: `change` in the basis, `rate` of the keys of the groups `touched`. */
  private solve(column: Column): void {
    const { inverse, size, change, more, basic, rate, touched } = this;
    const { rows, takes } = this.takings;
    touched.length = 0;
    for (let k = column.from; k < column.to; k++) more[rows[k]!]! += takes[k]!;
    if (column.group >= 0) {
      const key = this.keys[column.group]!;
      for (let k = key.from; k < key.to; k++) more[rows[k]!]! -= takes[k]!;
      rate[column.group] = -1;
      touched.push(column.group);
    }
    change.fill(0);
    for (let row = 0; row < size; row++) {
      const times = more[row]!;
      if (times === 0) continue;
      more[row] = 0;
      const from = row * size;
      for (let at = 0; at < size; at++) change[at]! += times * inverse[from + at]!;
    }
    for (let at = 0; at < size; at++) {
      const here = change[at]!;
      if (here < 1e-11 && here > -1e-11) {
        change[at] = 0;
        continue;
      }
      const group = basic[at]?.group ?? -1;
      if (group < 0) continue;
      if (!touched.includes(group)) {
        rate[group] = 0;
        touched.push(group);
      }
      rate[group]! += here;
    }
  }

  private pivot(leaves: number, column: Column, step: number): void {
    const { inverse, size, change, basic, held, value, price } = this;
    const saved = this.reduced(column);
    const by = change[leaves]!;
    for (let row = 0; row < size; row++) {
      const from = row * size;
      const times = inverse[from + leaves]! / by;
      if (times === 0) continue;
      for (let at = 0; at < size; at++) inverse[from + at]! -= times * change[at]!;
      inverse[from + leaves] = times;
      // So that the column that comes in costs as much as its key.
      price[row]! -= saved * times;
    }
    const gone = basic[leaves];
    if (gone !== undefined) held[gone.group] = held[gone.group]!.filter((at) => at !== leaves);
    basic[leaves] = column.group < 0 ? undefined : column;
    if (column.group >= 0) held[column.group]!.push(leaves);
    value[leaves] = step;
  }

  /** Makes a column in the basis the key of its group, and the key one of the basis. */
  private swapKey(group: number, at: number): void {
    const { inverse, size, basic, keys, value, keyValue, held } = this;
    const others = held[group]!;
    for (let from = 0; from < inverse.length; from += size) {
      let sum = 0;
      for (const other of others) sum += inverse[from + other]!;
      inverse[from + at] = -sum;
    }
    const key = keys[group]!;
    keys[group] = basic[at]!;
    basic[at] = key;
    const kept = keyValue[group]!;
    keyValue[group] = value[at]!;
    value[at] = kept;
  }

  /** The prices anew, as steps add up what was rounded. */
  private reprice(): void {
    const { inverse, size, basic, keys, price } = this;
    const costs = basic.map((column) => (column === undefined ? 0 : column.cost - keys[column.group]!.cost));
    for (let row = 0; row < size; row++) {
      let sum = 0;
      for (let at = 0; at < size; at++) sum -= costs[at]! * inverse[row * size + at]!;
      price[row] = sum;
    }
  }
}
