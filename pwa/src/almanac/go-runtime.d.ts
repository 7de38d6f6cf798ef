/** Go's own support script, put in by build/go-runtime.ts; it defines `Go`. */
declare module "virtual:go-runtime" {
  export {};
}

declare class Go {
  readonly importObject: WebAssembly.Imports;
  run(instance: WebAssembly.Instance): Promise<void>;
}
