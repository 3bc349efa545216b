export function activate(): void {}
