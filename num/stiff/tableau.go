package stiff

// Tableau is a singly diagonally implicit Runge-Kutta method with an explicit
// first stage, stiffly accurate: the last stage is the new state.
//
//	Y_i = y + h sum of A[i][j] f(Y_j), j <= i;  y' = Y_last
//
// A[i][i] is Gamma for i > 0 and 0 for i = 0, so that f(Y_0) is that of the
// step before and a step costs len(A)-1 implicit solves. The error of a step
// is estimated by h times the sum of Error[j] f(Y_j).
type Tableau struct {
	Name  string
	Order int // of the new state
	Lower int // of the solution it is compared with
	Gamma float64
	A     [][]float64
	C     []float64 // abscissae; the last is 1
	Error []float64
}

// ESDIRK4 returns the implicit half of ARK4(3)6L[2]SA: order 4, five implicit
// stages of stage order 2, L-stable.
// Source: KennedyCarpenter2003 (coefficients from memory; the tests hold the
// conditions of order and stability).
func ESDIRK4() Tableau {
	b := []float64{82889.0 / 524892, 0, 15625.0 / 83664, 69875.0 / 102672, -2260.0 / 8211, 0.25}
	lower := []float64{4586570599.0 / 29645900160, 0, 178811875.0 / 945068544, 814220225.0 / 1159782912, -3700637.0 / 11593932, 61727.0 / 225920}
	return finish(Tableau{
		Name: "ESDIRK4", Order: 4, Lower: 3, Gamma: 0.25,
		A: [][]float64{
			{0},
			{0.25, 0.25},
			{8611.0 / 62500, -1743.0 / 31250, 0.25},
			{5012029.0 / 34652500, -654441.0 / 2922500, 174375.0 / 388108, 0.25},
			{15267082809.0 / 155376265600, -71443401.0 / 120774400, 730878875.0 / 902184768, 2285395.0 / 8070912, 0.25},
			b,
		},
	}, lower)
}

// TRBDF2 returns the trapezoidal rule followed by the second backward
// difference: order 2, two implicit stages, L-stable.
// Source: HoseaShampine1996 (from memory; the tests hold the conditions).
func TRBDF2() Tableau {
	const (
		root2 = 1.41421356237309504880168872420969808
		d     = 1 - root2/2
		w     = root2 / 4
	)
	return finish(Tableau{
		Name: "TR-BDF2", Order: 2, Lower: 3, Gamma: d,
		A: [][]float64{{0}, {d, d}, {w, w, d}},
	}, []float64{(1 - w) / 3, (3*w + 1) / 3, d / 3})
}

// finish fills in abscissae and the weights of the error.
func finish(t Tableau, lower []float64) Tableau {
	last := t.A[len(t.A)-1]
	t.C = make([]float64, len(t.A))
	t.Error = make([]float64, len(last))
	for i, row := range t.A {
		for _, a := range row {
			t.C[i] += a
		}
	}
	for j := range last {
		t.Error[j] = last[j] - lower[j]
	}
	t.C[len(t.C)-1] = 1
	return t
}
