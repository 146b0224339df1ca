/** The stations in the order of the work, by their place in the address. */
export const stations = ["rider", "hardware", "valving", "springs", "effect", "fit", "build", "handover"] as const;
