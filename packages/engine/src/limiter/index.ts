export * from "./limit.ts";
