// What the engine says once of its rules, so that no rule or word of the checks is
// written a second time here. The program hands it over as it mounts a view.

/** @type {Rules} */
let known = { worst_first: [], verdicts: {} };

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

// verdictWords are the words of a departure's verdict.
/** @param {string} verdict */
export const verdictWords = (verdict) => known.verdicts[verdict] ?? verdict;
