/** What went wrong in one sentence for the person at the console, who can mend it. No stack is shown. */
export class Said extends Error {}
