export * from "./encoding.ts";
export * from "./identity.ts";
export * from "./read-plan.ts";
export * from "./register-map.ts";
export * from "./sunspec.ts";
export * from "./sunspec-walk.ts";
export * from "./word-order.ts";
