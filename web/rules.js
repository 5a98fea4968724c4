// What the engine says once of its rules, so that no rule or word of the checks is
// written a second time here. The program hands it over as it mounts a view.

/** @type {Rules} */
let known = { worst_first: [], joint_m: 0, verdicts: {} };

/** @param {Rules} rules */
export const setRules = (rules) => {
  known = rules;
};

// severityFrom gives a severity of a report, and "no-data" for what is none.
/** @param {unknown} severity */
export const severityFrom = (severity) => (typeof severity === "string" && known.worst_first.includes(severity) ? severity : "no-data");

// byGravity orders severities, the worst first.
/** @param {string} a @param {string} b */
export const byGravity = (a, b) => known.worst_first.indexOf(severityFrom(a)) - known.worst_first.indexOf(severityFrom(b));

// jointM is how many metres on the ground the end of a route may be from the stay
// that it leads to, and both still move together.
export const jointM = () => known.joint_m;

// verdictWords are the words of a departure's verdict.
/** @param {string} verdict */
export const verdictWords = (verdict) => known.verdicts[verdict] ?? verdict;
