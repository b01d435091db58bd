// Package dist holds the distributions that lab statistics need and that the
// numerical library lacks or has only approximately: the non-central t over
// its whole range, the factors of normal tolerance limits, and the limits of
// a binomial fraction.
//
// Everything is a pure function of its arguments. Probabilities are returned
// to about 1e-13, quantiles and factors to a relative 1e-9 or better for
// sample sizes 2..2000 and confidence 0.5..0.999; the tests compare with
// 30-digit quadrature and with published tables.
package dist
