type Layer = 'src/core' | 'src/book' | 'src/desk' | 'src/demo' | 'src/bridge' | 'src/ui';
export declare const layers: Record<string, string[]>;
export declare const rooms: Record<Layer, string[]>;
export declare const lightCore: string[];
