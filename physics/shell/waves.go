package shell

import "costrel/num/sym"

// waves is the matrix of a state for every number of waves, K = A + n B + n² C.
type waves struct {
	of      *prestress
	q       terms
	A, B, C *sym.Band
}

func newWaves(n int) *waves {
	b := 2*perNode - 1
	return &waves{A: sym.NewBand(n, b), B: sym.NewBand(n, b), C: sym.NewBand(n, b)}
}

// whole sets K to the matrix of n waves from a state. Those of 1 and more are
// assembled once for all; tmp is a workspace, not K.
func (w *waves) whole(K, tmp *sym.Band, p *prestress, q terms, n int) {
	if n == 0 {
		K.Zero()
		p.assemble(K, q)
		return
	}
	if w.of != p || w.q != q {
		for k, m := range []*sym.Band{w.A, w.B, w.C} {
			m.Zero()
			p.sum(m, q, [3]float64{0, 1, -1}[k], 1)
		}
		// K(1) = A + B + C and K(-1) = A - B + C.
		tmp.Combine(w.B, -1, w.C)
		w.C.Combine(w.B, 1, w.C)
		w.C.Combine(w.C, -2, w.A)
		w.C.Scale(0.5)
		w.B.Copy(tmp)
		w.B.Scale(0.5)
		w.of, w.q = p, q
	}
	K.Quadratic(float64(n), w.A, w.B, w.C)
}
