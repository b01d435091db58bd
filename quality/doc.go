// Package quality holds limits on figures, the verdicts they give, the board
// that lists them worst first, and the difference of two boards.
//
// A verdict is one of five words. Pass needs evidence: the whole 95 % band of
// the figure lies inside the limit and its method is no mere estimate. Where
// the evidence does not reach, the word is "not shown", never "pass".
//
// The statistics of laboratory samples are in quality/stat, sampling plans in
// quality/aql, the reader of lab tables and its verdicts in quality/lab.
package quality
