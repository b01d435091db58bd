package sym

// Band is a symmetric n x n matrix with half bandwidth b: entries with
// |i-j| > b are zero. Only the lower triangle is kept, row by row.
type Band struct {
	n, b int
	a    []float64 // row i holds columns i-b..i
}

// NewBand returns a zero matrix of n rows and half bandwidth b.
func NewBand(n, b int) *Band {
	if n < 1 || b < 0 {
		panic("sym: a band needs n >= 1 and b >= 0")
	}
	return &Band{n: n, b: b, a: make([]float64, n*(b+1))}
}

// Dim returns the number of rows.
func (m *Band) Dim() int { return m.n }

// Half returns the half bandwidth.
func (m *Band) Half() int { return m.b }

// Zero sets every entry to zero.
func (m *Band) Zero() { clear(m.a) }

// Add adds v to the entries (i,j) and (j,i). It panics outside the band.
func (m *Band) Add(i, j int, v float64) {
	if j > i {
		i, j = j, i
	}
	if i-j > m.b {
		panic("sym: entry outside the band")
	}
	m.a[i*(m.b+1)+j-i+m.b] += v
}

// At returns the entry (i,j); zero outside the band.
func (m *Band) At(i, j int) float64 {
	if j > i {
		i, j = j, i
	}
	if i-j > m.b {
		return 0
	}
	return m.a[i*(m.b+1)+j-i+m.b]
}

// AddBlock adds a full symmetric k x k block (row-major, len(v) >= k*k) whose
// first row is row `at` of the matrix. Only its lower triangle is read.
func (m *Band) AddBlock(at, k int, v []float64) {
	w := m.b + 1
	for i := range k {
		row := m.a[(at+i)*w+m.b-i:]
		src := v[i*k : i*k+i+1]
		for j, x := range src {
			row[j] += x
		}
	}
}

// Copy makes m equal to src, which must have the same shape.
func (m *Band) Copy(src *Band) {
	m.same(src)
	copy(m.a, src.a)
}

// Combine sets m = x + s y. All have the same shape; m may be x or y.
func (m *Band) Combine(x *Band, s float64, y *Band) {
	m.same(x)
	m.same(y)
	a, b := x.a[:len(m.a)], y.a[:len(m.a)]
	for i := range m.a {
		m.a[i] = a[i] + s*b[i]
	}
}

// Quadratic sets m = A + x B + x² C. All have the same shape.
func (m *Band) Quadratic(x float64, A, B, C *Band) {
	m.same(A)
	m.same(B)
	m.same(C)
	a, b, c := A.a[:len(m.a)], B.a[:len(m.a)], C.a[:len(m.a)]
	for i := range m.a {
		m.a[i] = a[i] + x*(b[i]+x*c[i])
	}
}

// Scale multiplies every entry by s.
func (m *Band) Scale(s float64) {
	for i := range m.a {
		m.a[i] *= s
	}
}

func (m *Band) same(o *Band) {
	if m.n != o.n || m.b != o.b {
		panic("sym: matrices of different shape")
	}
}

// Fix clears row and column i and sets the diagonal entry to d: the unknown i
// is held. Use d > 0 in a stiffness and 0 in the other matrix of a pencil.
func (m *Band) Fix(i int, d float64) {
	w := m.b + 1
	row := m.a[i*w : (i+1)*w]
	clear(row)
	row[m.b] = d
	for k := i + 1; k <= i+m.b && k < m.n; k++ {
		m.a[k*w+i-k+m.b] = 0
	}
}

// Mul sets y = m x.
func (m *Band) Mul(x, y []float64) {
	b, w := m.b, m.b+1
	for i := range m.n {
		lo := max(0, i-b)
		row := m.a[i*w+lo-i+b : i*w+b]
		xs, ys := x[lo:i], y[lo:i]
		xi := x[i]
		s := m.a[i*w+b] * xi
		for k, v := range row {
			s += v * xs[k]
			ys[k] += v * xi
		}
		y[i] = s
	}
}

// Trace returns the mean of the absolute diagonal, a scale of the matrix.
func (m *Band) Trace() float64 {
	s := 0.0
	for i := range m.n {
		d := m.a[i*(m.b+1)+m.b]
		if d < 0 {
			d = -d
		}
		s += d
	}
	return s / float64(m.n)
}
