package shell

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"
)

// The same cases by CalculiX, an independent program, where it is installed.

func ccx(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("runs another program")
	}
	path, err := exec.LookPath("ccx")
	if err != nil {
		t.Skip("ccx is not installed")
	}
	return path
}

// frd are the fields of a result file, by name and node; several steps keep
// the last.
type frd map[string]map[int][]float64

func runCCX(t *testing.T, input string) (frd, string, time.Duration) {
	t.Helper()
	path := ccx(t)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "case.inp"), []byte(input), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "case")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	start := time.Now()
	out, err := cmd.CombinedOutput()
	took := time.Since(start)
	if err != nil {
		t.Fatalf("ccx: %v\n%s", err, bytes.TrimSpace(out[max(0, len(out)-2000):]))
	}
	dat, _ := os.ReadFile(filepath.Join(dir, "case.dat"))
	f, err := os.Open(filepath.Join(dir, "case.frd"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	fields := frd{}
	var now map[int][]float64
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		l := sc.Text()
		switch {
		case strings.HasPrefix(l, " -4"):
			now = map[int][]float64{}
			fields[strings.Fields(l)[1]] = now
		case strings.HasPrefix(l, " -3"):
			now = nil
		case now != nil && strings.HasPrefix(l, " -1"):
			id, err := strconv.Atoi(strings.TrimSpace(l[3:13]))
			if err != nil {
				t.Fatal(err)
			}
			var v []float64
			for i := 13; i+12 <= len(l); i += 12 {
				x, err := strconv.ParseFloat(strings.TrimSpace(l[i:i+12]), 64)
				if err != nil {
					t.Fatal(err)
				}
				v = append(v, x)
			}
			now[id] = v
		}
	}
	return fields, string(dat), took
}

// solid writes a mesh as axisymmetric solids of 8 nodes, two through the wall,
// in mm and MPa. hold lists extra lines of *BOUNDARY, load those of the step.
func solid(m *Mesh, nlgeom bool, hold func(node func(i, j int) int) string, load func(node func(i, j int) int) string) string {
	var b strings.Builder
	node := func(i, j int) int { return 5*i + j + 1 }
	b.WriteString("*NODE,NSET=NALL\n")
	for i := range m.R {
		for j := range 5 {
			if i%2 == 1 && j%2 == 1 {
				continue
			}
			o := m.T[i] * (float64(j)/4 - 0.5)
			r := m.R[i] + o*m.NR[i]
			if m.R[i] < 1e-9 {
				r = 0
			}
			fmt.Fprintf(&b, "%d,%.12g,%.12g,0\n", node(i, j), 1e3*r, 1e3*(m.Z[i]+o*m.NZ[i]))
		}
	}
	b.WriteString("*ELEMENT,TYPE=CAX8R,ELSET=EALL\n")
	var inner []int
	id := 0
	for i := 0; i+2 < len(m.R); i += 2 {
		for j := 0; j < 4; j += 2 {
			id++
			if j == 0 {
				inner = append(inner, id)
			}
			fmt.Fprintf(&b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", id, node(i, j), node(i, j+2), node(i+2, j+2), node(i+2, j), node(i, j+1), node(i+1, j+2), node(i+2, j+1), node(i+1, j))
		}
	}
	b.WriteString("*MATERIAL,NAME=M\n*ELASTIC\n3000,0.38\n*SOLID SECTION,ELSET=EALL,MATERIAL=M\n*BOUNDARY\n")
	b.WriteString(hold(node))
	for _, i := range []int{0, len(m.R) - 1} {
		if m.R[i] < 1e-9 {
			for j := range 5 {
				fmt.Fprintf(&b, "%d,1,1\n", node(i, j))
			}
		}
	}
	if nlgeom {
		b.WriteString("*STEP,NLGEOM\n*STATIC\n0.25,1.\n")
	} else {
		b.WriteString("*STEP\n*STATIC\n")
	}
	s := load(node)
	if s == "" {
		b.WriteString("*DLOAD\n")
		for _, e := range inner {
			fmt.Fprintf(&b, "%d,P4,0.4\n", e)
		}
	}
	b.WriteString(s)
	b.WriteString("*NODE FILE,OUTPUT=2D\nU\n*EL FILE,OUTPUT=2D\nS\n*END STEP\n")
	return b.String()
}

func within(t *testing.T, what string, ours, theirs, rel float64) {
	t.Helper()
	d := ours/theirs - 1
	t.Logf("%-34s ours %12.6g ccx %12.6g  %+.2f %%", what, ours, theirs, 100*d)
	if !(math.Abs(d) <= rel) {
		t.Errorf("%s: ours %g, ccx %g: %.3g off, allowed %g", what, ours, theirs, d, rel)
	}
}

func TestCCXPressure(t *testing.T) {
	ccx(t)
	taper := func() (*Mesh, int) {
		m := must(capsule(refR, 0.05, refWall, 0.5e-3, refPly))
		n := len(m.R)
		w, l := make([]float64, n), make([]Layers, n)
		for i := range w {
			w[i], l[i] = 0.6e-3-0.4e-3*m.S[i]/m.S[n-1], Even(refPly)
		}
		return must(NewMesh(m.R, m.Z, w, l)), 0
	}
	for _, c := range []struct {
		name string
		mesh func() (*Mesh, int)
		cap  bool
	}{
		{"capsule", func() (*Mesh, int) { return must(capsule(refR, 0.05, refWall, 0.5e-3, refPly)), 0 }, false},
		{"tapered capsule", taper, false},
		{"bottle", func() (*Mesh, int) { m, r, _ := referenceBottle(0.5e-3, true, refPly); return m, r }, true},
	} {
		for _, nl := range []bool{false, true} {
			name := c.name + " linear"
			if nl {
				name = c.name + " nonlinear"
			}
			m, ring := c.mesh()
			if len(m.el)%2 == 1 {
				t.Fatalf("%s: odd number of elements", name)
			}
			if ring%2 == 1 {
				t.Fatalf("%s: ring at an odd node", name)
			}
			last := len(m.R) - 1
			s := Case{Face: Inner, Green: true, Supports: []Support{{Node: ring, Axial: HoldZ}}}
			if !c.cap {
				s.Supports[0].Axial = held
			}
			load := func(node func(i, j int) int) string {
				if !c.cap {
					return ""
				}
				// The closure on the neck: p π r² of the bore as nodal forces at
				// the mid-surface of the top.
				r := 1e3 * (m.R[last] - m.T[last]/2)
				var b strings.Builder
				fmt.Fprintf(&b, "*CLOAD\n%d,2,%.10g\n*DLOAD\n", node(last, 2), 0.4*math.Pi*r*r)
				for e := 1; e <= len(m.el); e += 2 {
					fmt.Fprintf(&b, "%d,P4,0.4\n", e)
				}
				return b.String()
			}
			hold := func(node func(i, j int) int) string {
				if c.cap {
					return fmt.Sprintf("%d,2,2\n", node(ring, 2))
				}
				var b strings.Builder
				for j := range 5 {
					fmt.Fprintf(&b, "%d,2,2\n", node(ring, j))
				}
				return b.String()
			}
			f, _, took := runCCX(t, solid(m, nl, hold, load))
			start := time.Now()
			var ours state
			var err error
			if nl {
				ours, err = nonlinear(m, nil, s, Load{Pressure: 4e5})
			} else {
				ours, err = linear(m, nil, s, Load{Pressure: 4e5})
			}
			mine := time.Since(start)
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s: %d elements, ours %v, ccx %v: %.0f times", name, len(m.el), mine, took, took.Seconds()/mine.Seconds())
			mid := func(i int) []float64 { return f["DISP"][5*i+3] }
			place := 20
			if c.cap {
				place = ring + 100
			}
			place -= place % 2
			within(t, name+": radial, cylinder", ours.u[3*place], 1e-3*mid(place)[0], 0.005)
			end, tol := last, 0.02
			if c.cap {
				tol = 0.03
			}
			within(t, name+": axial, end", ours.u[3*end+1], 1e-3*mid(end)[1], tol)
			// Largest principal stress in the plane of the meridian at the faces,
			// and hoop. Near concentrated forces (ring, top) there is none to compare.
			along, round := 0.0, 0.0
			for i := range m.R {
				if m.R[i] < 1.5e-3 || c.cap && (i > last-8 || (i > ring-6 && i < ring+6)) {
					continue
				}
				for _, j := range []int{0, 4} {
					v, ok := f["STRESS"][5*i+j+1]
					if !ok {
						continue
					}
					p := 0.5*(v[0]+v[1]) + math.Hypot(0.5*(v[0]-v[1]), v[3])
					along, round = math.Max(along, p), math.Max(round, v[2])
				}
			}
			for k := range ours.st { // the facet at the pole bends, see doc
				if ours.st[k].R < 1.5e-3 {
					ours.st[k] = Stress{}
				}
			}
			within(t, name+": largest meridional", largest(ours, alongTop), 1e6*along, 0.02)
			within(t, name+": largest hoop", largest(ours, roundTop), 1e6*round, 0.02)
		}
	}
}

func TestCCXTopLoadEigenvalue(t *testing.T) {
	ccx(t)
	const around = 28
	m, _, err := referenceBottle(1.25e-3, false, refPly)
	if err != nil {
		t.Fatal(err)
	}
	n := len(m.R) - 1
	n -= n % 2
	var b strings.Builder
	id := func(i, k int) int { return i*2*around + k%(2*around) + 1 }
	b.WriteString("*NODE,NSET=NALL\n")
	for i := 0; i <= n; i++ {
		for k := range 2 * around {
			if i%2 == 1 && k%2 == 1 {
				continue
			}
			s, c := math.Sincos(math.Pi * float64(k) / around)
			fmt.Fprintf(&b, "%d,%.10g,%.10g,%.10g\n", id(i, k), 1e3*m.R[i]*c, 1e3*m.R[i]*s, 1e3*m.Z[i])
		}
	}
	b.WriteString("*ELEMENT,TYPE=S8R,ELSET=EALL\n")
	e := 0
	for i := 0; i+2 <= n; i += 2 {
		for k := 0; k < 2*around; k += 2 {
			e++
			// Normal outward: round first, then up.
			fmt.Fprintf(&b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", e, id(i, k), id(i, k+2), id(i+2, k+2), id(i+2, k), id(i, k+1), id(i+1, k+2), id(i+2, k+1), id(i+1, k))
		}
	}
	set := func(name string, i int) {
		fmt.Fprintf(&b, "*NSET,NSET=%s\n", name)
		for k := range 2 * around {
			fmt.Fprintf(&b, "%d,\n", id(i, k))
		}
	}
	set("LOW", 0)
	set("TOP", n)
	b.WriteString("*MATERIAL,NAME=M\n*ELASTIC\n3000,0.38\n*SHELL SECTION,ELSET=EALL,MATERIAL=M,NODAL THICKNESS\n0.3\n*NODAL THICKNESS\n")
	for i := 0; i <= n; i++ {
		for k := range 2 * around {
			if i%2 == 1 && k%2 == 1 {
				continue
			}
			fmt.Fprintf(&b, "%d,%.8g\n", id(i, k), 1e3*m.T[i])
		}
	}
	b.WriteString("*BOUNDARY\nLOW,1,3\nTOP,1,2\n")
	force := func(total float64) {
		// Consistent forces of a quadratic edge: 1/6 at corners twice, 2/3 mid.
		b.WriteString("*CLOAD\n")
		for k := range 2 * around {
			w := 1.0 / 3
			if k%2 == 1 {
				w = 2.0 / 3
			}
			fmt.Fprintf(&b, "%d,3,%.10g\n", id(n, k), total*w/around)
		}
	}
	body := b.String()
	mo := must(NewModel(m, Case{Face: Mid, Supports: []Support{{Node: 0, Axial: HoldR | HoldZ}, {Node: len(m.R) - 1, Axial: HoldR, Harmonic: HoldR | HoldRound}}}))
	for _, p := range []float64{0, 0.05} {
		b.Reset()
		b.WriteString(body)
		if p > 0 {
			b.WriteString("*STEP\n*STATIC\n*DLOAD\n")
			fmt.Fprintf(&b, "EALL,P,%g\n", p)
			force(p * math.Pi * m.R[n] * m.R[n] * 1e6)
			b.WriteString("*END STEP\n*STEP,PERTURBATION\n")
		} else {
			b.WriteString("*STEP\n")
		}
		b.WriteString("*BUCKLE\n3\n")
		force(-1)
		b.WriteString("*NODE FILE\nU\n*END STEP\n")
		_, dat, took := runCCX(t, b.String())
		at := strings.Index(dat, "FACTOR")
		if at < 0 {
			t.Fatalf("no buckling factor:\n%s", dat)
		}
		var theirs float64
		for _, l := range strings.Split(dat[at:], "\n") {
			f := strings.Fields(l)
			if len(f) == 2 && f[0] == "1" {
				theirs, err = strconv.ParseFloat(f[1], 64)
				if err != nil {
					t.Fatal(err)
				}
				break
			}
		}
		start := time.Now()
		r := must(mo.Buckling(Eigen{Fixed: Load{Pressure: p * 1e6}, Varying: Load{Force: 1}, Hint: 1000, Dead: true}))
		t.Logf("p %.2g MPa: ours %v, ccx %v; n = %d", p, time.Since(start), took, Lowest(r).Harmonic)
		within(t, fmt.Sprintf("top load at %g bar", 10*p), Lowest(r).Load, theirs, 0.015)
	}
}

// LE7 with the pressure on the inner face, and the thick tube in steady creep.
func TestCCXBenchmarks(t *testing.T) {
	ccx(t)
	t.Run("thick creep", func(t *testing.T) {
		// Bore 1, outside 2, plane strain, E 1000, ε̇ = 1e-6 σ̄³, p 1: steady
		// after a few thousand units of time.
		const n = 12
		var b strings.Builder
		id := func(i, j int) int { return 3*i + j + 1 }
		b.WriteString("*NODE,NSET=NALL\n")
		for i := range 2*n + 1 {
			for j := range 3 {
				if i%2 == 1 && j == 1 {
					continue
				}
				fmt.Fprintf(&b, "%d,%.10g,%.10g,0\n", id(i, j), 1+float64(i)/(2*n), 0.05*float64(j))
			}
		}
		b.WriteString("*ELEMENT,TYPE=CAX8R,ELSET=EALL\n")
		for e := range n {
			i := 2 * e
			fmt.Fprintf(&b, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", e+1, id(i, 0), id(i+2, 0), id(i+2, 2), id(i, 2), id(i+1, 0), id(i+2, 1), id(i+1, 2), id(i, 1))
		}
		b.WriteString("*MATERIAL,NAME=M\n*ELASTIC\n1000,0.3\n*CREEP\n1e-6,3,0\n*SOLID SECTION,ELSET=EALL,MATERIAL=M\n*BOUNDARY\nNALL,2,2\n")
		b.WriteString("*STEP,INC=2000\n*STATIC\n*DLOAD\n1,P4,1\n*END STEP\n*STEP,INC=5000\n*VISCO,CETOL=1e-4\n1,20000\n*DLOAD\n1,P4,1\n*NODE FILE,OUTPUT=2D,FREQUENCY=5000\nU\n*EL FILE,OUTPUT=2D,FREQUENCY=5000\nS\n*END STEP\n")
		f, _, took := runCCX(t, b.String())
		t.Logf("took %v", took)
		for _, i := range []int{8, 16, 20} {
			_, want, err := ThickCreep(1, 1, 2, 1+float64(i)/(2*n), 3)
			if err != nil {
				t.Fatal(err)
			}
			within(t, fmt.Sprintf("hoop stress at radius %.2f", 1+float64(i)/(2*n)), want, f["STRESS"][id(i, 0)][2], 0.01)
		}
	})
	t.Run("LE7", func(t *testing.T) {
		m := must(capsule(1, 1.5, 0.025, 0.0125, Isotropic(3e9, 0.38)))
		if len(m.el)%2 == 1 {
			t.Fatal("odd number of elements")
		}
		s := solid(m, false, func(node func(i, j int) int) string {
			var b strings.Builder
			for j := range 5 {
				fmt.Fprintf(&b, "%d,2,2\n", node(0, j))
			}
			return b.String()
		}, func(func(i, j int) int) string { return "" })
		s = strings.Replace(strings.ReplaceAll(s, "P4,0.4", "P4,1"), "*ELASTIC\n3000,0.38", "*ELASTIC\n210000,0.3", 1)
		f, _, _ := runCCX(t, s)
		top := 0.0
		for i := range m.R {
			if v, ok := f["STRESS"][5*i+5]; ok && m.R[i] > 0.05 {
				top = math.Max(top, 0.5*(v[0]+v[1])+math.Hypot(0.5*(v[0]-v[1]), v[3]))
			}
		}
		ours := must(linear(must(capsule(1, 1.5, 0.025, 0.0125/2, Isotropic(210e9, 0.3))), nil, Case{Supports: []Support{{Node: 0, Axial: held}}}, Load{Pressure: 1e6}))
		within(t, "largest meridional stress outside", largest(ours, alongTop), 1e6*top, 0.01)
	})
}
