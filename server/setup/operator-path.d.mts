/** What the server of a data directory listens on for its operator; throws when the path is too long. */
export declare function operatorPath(directory: string): string;
