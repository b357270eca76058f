/** What the tests use of `datapackage`, which comes without types. */
declare module 'datapackage' {
  interface Field {
    readonly type: string;
    readonly descriptor: { readonly unit?: string };
  }
  interface Resource {
    readonly schema: { readonly fields: readonly Field[]; readonly fieldNames: readonly string[] };
    read(options: { readonly keyed: true }): Promise<readonly Record<string, unknown>[]>;
  }
  export class Package {
    static load(file: string, options: { readonly strict: boolean }): Promise<Package>;
    readonly errors: readonly Error[];
    readonly resources: readonly Resource[];
  }
}
