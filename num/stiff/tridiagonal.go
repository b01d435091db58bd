package stiff

// Tridiagonal solves the system
//
//	lower[i] x[i-1] + diag[i] x[i] + upper[i] x[i+1] = rhs[i]
//
// in place: x stands in rhs afterwards and diag is overwritten. All slices have
// the length of rhs; lower[0] and the last upper are not read. There is no
// pivoting: the matrix must be diagonally dominant by rows or columns, as that
// of a diffusion step is.
func Tridiagonal(lower, diag, upper, rhs []float64) {
	n := len(rhs)
	lower, diag, upper = lower[:n], diag[:n], upper[:n]
	for i := 1; i < n; i++ {
		m := lower[i] / diag[i-1]
		diag[i] -= m * upper[i-1]
		rhs[i] -= m * rhs[i-1]
	}
	for i := n - 1; i >= 0; i-- {
		if i < n-1 {
			rhs[i] -= upper[i] * rhs[i+1]
		}
		rhs[i] /= diag[i]
	}
}

// Bordered is [Tridiagonal] for two right-hand sides at once, of which the
// second is edge in the first row and nothing elsewhere: the answer of a chain
// to its own residual and to what happens at its first cell. The second
// solution is written to response.
func Bordered(lower, diag, upper, rhs, response []float64, edge float64) {
	n := len(rhs)
	lower, diag, upper, response = lower[:n], diag[:n], upper[:n], response[:n]
	response[0] = edge
	for i := 1; i < n; i++ {
		m := lower[i] / diag[i-1]
		diag[i] -= m * upper[i-1]
		rhs[i] -= m * rhs[i-1]
		response[i] = -m * response[i-1]
	}
	r := 1 / diag[n-1]
	rhs[n-1] *= r
	response[n-1] *= r
	for i := n - 2; i >= 0; i-- {
		r := 1 / diag[i]
		rhs[i] = (rhs[i] - upper[i]*rhs[i+1]) * r
		response[i] = (response[i] - upper[i]*response[i+1]) * r
	}
}
