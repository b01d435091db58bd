package permeation

// guess foretells a stage from the rates that are known: the start of the step
// and the two latest stages, and for the first stage the last but one of the
// step before. Newton's iteration then mostly needs one pass. It moves the
// answer by no more than that iteration leaves.
type guess struct {
	at    []float64        // times of the rates [s]
	p     [][gases]float64 // pressures there
	known int              // stages of this step that stand
	old   bool             // the last but one is that of the step before
}

func newGuess(stages int) guess {
	return guess{at: make([]float64, stages), p: make([][gases]float64, stages)}
}

// begin opens a step at t. A guess that is new, behind a jump of the lane, has
// no step before.
func (g *guess) begin(t float64, p [gases]float64) {
	g.at[0], g.p[0] = t, p
	g.old = g.known == len(g.at)
	g.known = 1
}

// add keeps a stage at t.
func (g *guess) add(t float64, p [gases]float64) {
	g.at[g.known], g.p[g.known] = t, p
	g.known++
}

// put writes the guess of the next stage, at t, to y and returns its pressures:
// a is its explicit part, h the step times gamma.
func (g *guess) put(m *model, t float64, a, y []float64, k [][]float64, h float64) [gases]float64 {
	var nodes [3]int
	n := 1
	switch i := g.known; {
	case i == 1 && g.old:
		nodes[1], n = len(g.at)-2, 2
	case i == 2:
		nodes[1], n = 1, 2
	case i > 2:
		nodes[1], nodes[2], n = i-2, i-1, 3
	}
	// Lagrange's weights at t.
	var w [3]float64
	var p [gases]float64
	for i, a := range nodes[:n] {
		w[i] = 1
		for j, b := range nodes[:n] {
			if j != i {
				w[i] *= (t - g.at[b]) / (g.at[a] - g.at[b])
			}
		}
		for q := range p {
			p[q] += w[i] * g.p[a][q]
		}
		w[i] *= h
	}
	k0, k1, k2 := k[nodes[0]][:len(y)], k[nodes[1]][:len(y)], k[nodes[2]][:len(y)]
	one := func(x int) { y[x] = a[x] + w[0]*k0[x] + w[1]*k1[x] + w[2]*k2[x] }
	one(atAcid)
	one(atLiner)
	for x := m.small; x < len(y); x++ {
		y[x] = a[x] + w[0]*k0[x] + w[1]*k1[x] + w[2]*k2[x]
	}
	for q := range p {
		if !(p[q] > 0) {
			p[q] = g.p[g.known-1][q]
		}
	}
	return p
}
