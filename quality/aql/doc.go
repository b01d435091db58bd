// Package aql holds the sampling plans of incoming and line inspection: single
// plans by attributes indexed by acceptance quality limit with their code
// letters, switching rules and operating characteristics, and plans by
// variables.
//
// The tables are those of MILSTD105E and MILSTD414. The single tables for
// normal and tightened inspection are said to equal ISO2859; the reduced table
// is that of MILSTD105E, where a result between acceptance and rejection number
// accepts the lot but ends reduced inspection, a gap that ISO2859 closed.
package aql
