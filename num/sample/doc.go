// Package sample carries uncertain inputs through a calculation.
//
// [Normal] gives quasi-random standard normal scores, the same for the same
// seed; [Evaluate] runs a function over them on several cores; [Band] reads a
// range off the results; [Contributions] says which input moves the result.
//
//	z, err := sample.Normal(1000, dims, seed)
//	out, err := sample.Evaluate(z, workers, f)
//	lo, mid, hi, err := sample.Band(out.Column(0), 0.95)
//	ranked, rest, err := sample.Contributions(out.Z, out.Column(0))
package sample
