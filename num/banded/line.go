package banded

// Line solves a scalar tridiagonal system in place by Thomas' elimination:
// lower[i] x[i-1] + diag[i] x[i] + upper[i] x[i+1] = rhs[i]. diag and rhs are
// overwritten, rhs by the solution. The diagonal must lead (as in implicit
// conduction); lower[0] and upper[n-1] are not read.
func Line(lower, diag, upper, rhs []float64) {
	n := len(diag)
	for i := 1; i < n; i++ {
		w := lower[i] / diag[i-1]
		diag[i] -= w * upper[i-1]
		rhs[i] -= w * rhs[i-1]
	}
	rhs[n-1] /= diag[n-1]
	for i := n - 2; i >= 0; i-- {
		rhs[i] = (rhs[i] - upper[i]*rhs[i+1]) / diag[i]
	}
}
