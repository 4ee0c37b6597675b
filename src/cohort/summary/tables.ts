/** All tables of counts of one page, masked together: the same groups, the same people withheld, no table giving another away. */
import { isSmall, maskGroups, maskLine } from './mask.ts';
import type { Counts, GroupCounts } from './part.ts';
import type { Count } from './types.ts';

/** People of a known number, each in one category. */
export interface Partition {
  /** Unlike those of all other partitions of the page. */
  readonly key: string;
  readonly categories: readonly string[];
  readonly pick: (group: GroupCounts) => Counts;
  /** The category that is parted further, where it is not the whole group: known only where that is shown. */
  readonly of?: { readonly partition: Partition; readonly category: string };
}

/** One group of the page; null for all together. */
export type RowName = string | null;

interface Masked {
  readonly rows: ReadonlyMap<RowName, readonly boolean[]>;
}

const sumOf = (partition: Partition, groups: readonly GroupCounts[]): number[] =>
  partition.categories.map((category) => groups.reduce((sum, group) => sum + (partition.pick(group)[category] ?? 0), 0));

export interface PageGroups {
  /** By name; empty where the page has fewer than two groups. */
  readonly groups: ReadonlyMap<string, GroupCounts>;
  readonly whole: GroupCounts;
  /** Name of the only group, which is then the whole; null where there are several or none. */
  readonly only: string | null;
}

const sizeOf = (group: GroupCounts): number => group.rows.accepted ?? 0;

export class Tables {
  readonly #page: PageGroups;
  readonly #masked: boolean;
  /** Pages of parts of these people that may be known: this page shows nothing that they do not show together. */
  readonly #known: readonly Tables[];
  readonly #withheld: ReadonlySet<string>;
  readonly #tables = new Map<string, Masked>();
  /** Too few people for any page. */
  readonly tooFew: boolean;

  constructor(page: PageGroups, masked: boolean, known: readonly Tables[] = []) {
    this.#page = page;
    this.#masked = masked;
    this.#known = known;
    this.tooFew = masked && (isSmall(sizeOf(page.whole)) || known.some((part) => part.tooFew));
    this.#withheld = masked ? this.#withheldGroups() : new Set();
  }

  /** Groups too small to be shown, and with them as many as it takes that none follows from the total. */
  #withheldGroups(): Set<string> {
    const names = [...this.#page.groups.keys()];
    const sizes = [...this.#page.groups.values()].map(sizeOf);
    const hidden = maskLine(
      sizes,
      names.map((name) => this.#known.some((part) => part.isWithheld(name))),
    );
    return new Set(names.filter((_, index) => hidden[index]));
  }

  /** Pages of parts may be known, so that what is no sum has to be weighed against theirs. */
  get isBesideParts(): boolean {
    return this.#known.length > 0;
  }

  isWithheld(name: RowName): boolean {
    if (this.tooFew) return true;
    return name !== null && this.#withheld.has(name);
  }

  /** null where it is withheld. */
  count(partition: Partition, name: RowName, category: string): Count {
    const column = partition.categories.indexOf(category);
    if (this.#masked && this.#isHidden(partition, name, column)) return null;
    const group = name === null ? this.#page.whole : this.#page.groups.get(name);
    return group === undefined ? 0 : (partition.pick(group)[category] ?? 0);
  }

  /** Sum of several categories, null where one of them is withheld. */
  sum(partition: Partition, name: RowName, categories: readonly string[]): Count {
    return categories.reduce<Count>((total, category) => {
      const count = this.count(partition, name, category);
      return total === null || count === null ? null : total + count;
    }, 0);
  }

  #isHidden(partition: Partition, name: RowName, column: number): boolean {
    return this.isWithheld(name) || this.#table(partition).rows.get(name)?.[column] === true;
  }

  #table(partition: Partition): Masked {
    const known = this.#tables.get(partition.key);
    if (known !== undefined) return known;
    const made = this.#mask(partition);
    this.#tables.set(partition.key, made);
    return made;
  }

  /** What a part withholds of a row; it knows no row of a group that it does not have. */
  #hiddenInParts(partition: Partition, name: RowName): boolean[] {
    return partition.categories.map((_, column) => this.#known.some((part) => part.#hides(partition, name, column)));
  }

  #hides(partition: Partition, name: RowName, column: number): boolean {
    const { groups, only } = this.#page;
    if (name === null || groups.has(name)) return this.#isHidden(partition, name, column);
    return name === only && this.#isHidden(partition, null, column);
  }

  #mask(partition: Partition): Masked {
    const { groups, whole } = this.#page;
    const all = partition.categories.map(() => true);
    const shown = [...groups].filter(([name]) => !this.#withheld.has(name));
    const total = sumOf(partition, [whole]);
    const totalHidden = this.#totalIsKnown(partition) ? maskLine(total, this.#hiddenInParts(partition, null)) : all;
    const names = shown.map(([name]) => name);
    const rows = new Map<RowName, readonly boolean[]>([[null, totalHidden]]);
    if (!this.#groupsAreKnown(partition)) {
      for (const name of names) rows.set(name, all);
      return { rows };
    }
    // Groups that are withheld are known together, as the rest of the total.
    const rest = [...groups].filter(([name]) => this.#withheld.has(name)).map(([, group]) => group);
    const lines = shown.map(([, group]) => sumOf(partition, [group]));
    const also = names.map((name) => this.#hiddenInParts(partition, name));
    const hidden = maskGroups(rest.length === 0 ? lines : [...lines, sumOf(partition, rest)], totalHidden, also);
    for (const [index, name] of names.entries()) rows.set(name, hidden[index] ?? all);
    return { rows };
  }

  /** Is the size of what is parted known of all together? */
  #totalIsKnown({ of }: Partition): boolean {
    return of === undefined || !this.#isHidden(of.partition, null, of.partition.categories.indexOf(of.category));
  }

  /** Likewise of every group; what is parted further is shown by group only where nothing of its own table is withheld. */
  #groupsAreKnown({ of }: Partition): boolean {
    if (of === undefined) return true;
    const { partition } = of;
    const names = [null, ...this.#page.groups.keys()];
    return names.every((name) => partition.categories.every((_, column) => !this.#isHidden(partition, name, column)));
  }
}
