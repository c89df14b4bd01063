/** Values of a type, taken from the type itself: enough of them to come to each branch of a text. */
import ts from 'typescript';

/** A value that a text would show, told apart from any word. */
const NAMES = ['Ærn', 'Øyk', 'Ūma'];
const COUNTS = [7, 11, 13, 17];
const DAY = '2026-01-09T09:12:00+01:00';

/** Of a text, by what its parameter is called. */
function textFor(name: string, at: number): string {
  if (/zone/i.test(name)) return 'Europe/Vienna';
  if (/(^|[a-z])(iso|At)$|^(at|from|until|opened|made|day)$/.test(name) || /^iso/.test(name)) return DAY;
  return NAMES[at % NAMES.length]!;
}

const PLAIN = ts.TypeFlags.NumberLike | ts.TypeFlags.StringLike;
const MOST = 24;
const DEEP = 5;

export class Samples {
  readonly #checker: ts.TypeChecker;

  constructor(checker: ts.TypeChecker) {
    this.#checker = checker;
  }

  /** @param at which of its neighbours it is, so that two names differ */
  of(type: ts.Type, name: string, at = 0, depth = 0): unknown[] {
    const checker = this.#checker;
    if (type.isStringLiteral() || type.isNumberLiteral()) return [type.value];
    const { flags } = type;
    if (flags & ts.TypeFlags.BooleanLiteral) return [checker.typeToString(type) === 'true'];
    if (flags & ts.TypeFlags.Null) return [null];
    if (flags & (ts.TypeFlags.Undefined | ts.TypeFlags.Void)) return [undefined];
    if (flags & ts.TypeFlags.StringLike) return [textFor(name, at)];
    if (flags & ts.TypeFlags.NumberLike) return [COUNTS[at % COUNTS.length]!, ...(at === 0 ? [1, 0] : [])];
    if (type.isUnion()) return type.types.flatMap((each) => this.of(each, name, at, depth)).slice(0, 60);
    // A number with a unit is a number.
    const plain = type.isIntersection() ? type.types.find((one) => one.flags & PLAIN) : undefined;
    if (plain) return this.of(plain, name, at, depth);
    if (depth > DEEP || flags & (ts.TypeFlags.Any | ts.TypeFlags.Unknown)) return [undefined];
    if (checker.isArrayType(type)) {
      const [of] = checker.getTypeArguments(type as ts.TypeReference);
      const some = this.of(of!, name, 0, depth + 1);
      return [some.slice(0, 1), some.slice(0, 3)];
    }
    if (checker.isTupleType(type))
      return [
        checker
          .getTypeArguments(type as ts.TypeReference)
          .map((each, i) => this.of(each, name, i, depth + 1)[0]),
      ];
    if (type.getCallSignatures().length > 0) return [() => NAMES[0]];
    return this.#objects(type, depth);
  }

  /** Each property at its first value, then each of them through its others. */
  #objects(type: ts.Type, depth: number): unknown[] {
    const properties = type.getProperties().map((property, at) => {
      const values = this.of(this.#checker.getTypeOfSymbol(property), property.name, at, depth + 1);
      return { name: property.name, values: values.length > 0 ? values : [undefined] };
    });
    const first = Object.fromEntries(properties.map(({ name, values }) => [name, values[0]]));
    const others = properties.flatMap(({ name, values }) =>
      values.slice(1, MOST).map((value) => ({ ...first, [name]: value })),
    );
    return [first, ...others];
  }

  /** Lists of arguments for a function: each parameter through its values, the others at their first. */
  callsOf(signature: ts.Signature): unknown[][] {
    const each = signature.parameters.flatMap((parameter, at) => {
      const type = this.#checker.getTypeOfSymbol(parameter);
      // `(...args: [iso: string, n: number])`
      if (!this.#checker.isTupleType(type)) return [this.of(type, parameter.name, at)];
      const { target } = type as ts.TupleTypeReference;
      return this.#checker
        .getTypeArguments(type as ts.TypeReference)
        .map((one, i) => this.of(one, target.labeledElementDeclarations?.[i]?.name.getText() ?? '', i));
    });
    const first = each.map(([value]) => value);
    return [first, ...each.flatMap((values, at) => values.slice(1).map((value) => first.with(at, value)))];
  }
}

export interface CatalogueFunction {
  /** `stance.ts knees.otherTitle` */
  readonly name: string;
  readonly path: readonly string[];
  readonly calls: readonly (readonly unknown[])[];
}

/** Every function that a module exports, alone or in a table, with arguments to call it with. */
export function functionsOf(files: readonly string[]): Map<string, CatalogueFunction[]> {
  const program = ts.createProgram(files, {
    target: ts.ScriptTarget.ES2023,
    module: ts.ModuleKind.ESNext,
    moduleResolution: ts.ModuleResolutionKind.Bundler,
    allowImportingTsExtensions: true,
    noEmit: true,
    strict: true,
    exactOptionalPropertyTypes: true,
    lib: ['lib.es2023.d.ts', 'lib.dom.d.ts', 'lib.dom.iterable.d.ts'],
    skipLibCheck: true,
  });
  const checker = program.getTypeChecker();
  const samples = new Samples(checker);
  const functions = (type: ts.Type, path: readonly string[]): CatalogueFunction[] => {
    const [signature] = type.getCallSignatures();
    if (signature) return [{ name: path.join('.'), path, calls: samples.callsOf(signature) }];
    if (path.length > 4 || type.flags & (ts.TypeFlags.StringLike | ts.TypeFlags.NumberLike)) return [];
    if (checker.isArrayType(type) || checker.isTupleType(type)) return [];
    return type
      .getProperties()
      .flatMap((property) => functions(checker.getTypeOfSymbol(property), [...path, property.name]));
  };
  return new Map(
    files.map((file) => {
      const module = checker.getSymbolAtLocation(program.getSourceFile(file)!);
      const exported = module ? checker.getExportsOfModule(module) : [];
      const values = exported.filter(({ flags }) => flags & ts.SymbolFlags.Value);
      return [file, values.flatMap((one) => functions(checker.getTypeOfSymbol(one), [one.name]))];
    }),
  );
}
