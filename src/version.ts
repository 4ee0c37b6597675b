/** Name and version of the program; the build puts the version in. */
export const toolName = 'footing';
export const toolVersion: string = process.env.FOOTING_VERSION ?? 'unbuilt';
