// Package stat holds the statistics of laboratory samples of bottles: small
// numbers, one-sided limits, and the question how much the sample shows.
//
// Every function takes plain values in one unit and returns results in that
// unit. A sample that is too small, not finite or without spread where spread
// is needed is refused with an error; NaN and Inf never come out.
package stat
