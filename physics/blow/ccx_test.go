package blow

import (
	"bufio"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"costrel/physics/resin"
)

// solid is a meridian meshed with eight-node axisymmetric elements: n along,
// m through the wall, nodes on a grid of half steps.
type solid struct {
	n, m int
	at   func(u, v float64) (r, y float64) // u along 0..1, v through 0 inside..1 outside
}

func (s solid) node(i, j int) int { return i*(2*s.m+1) + j + 1 }

// ccxCurve blows the solid with a pressure that rises to p and returns, for
// each increment, the pressure and the displaced inner face, with the time the
// program took. Rows i = 0 and 2n are fixed as told.
func ccxCurve(t *testing.T, s solid, c [3]float64, p float64, increments int, fix func(i, j int) (r, y bool)) (ps []float64, face [][][2]float64, took time.Duration) {
	t.Helper()
	if testing.Short() {
		t.Skip("runs another program")
	}
	path, err := exec.LookPath("ccx")
	if err != nil {
		t.Skip("the finite-element program ccx is not installed")
	}
	var b strings.Builder
	fmt.Fprintln(&b, "*NODE, NSET=ALL")
	for i := 0; i <= 2*s.n; i++ {
		for j := 0; j <= 2*s.m; j++ {
			if i%2 == 1 && j%2 == 1 {
				continue
			}
			r, y := s.at(float64(i)/float64(2*s.n), float64(j)/float64(2*s.m))
			fmt.Fprintf(&b, "%d, %.12g, %.12g, 0\n", s.node(i, j), r, y)
		}
	}
	fmt.Fprintln(&b, "*ELEMENT, TYPE=CAX8R, ELSET=WALL")
	e := 0
	for i := range s.n {
		for j := range s.m {
			e++
			a, c := 2*i, 2*j
			// counter-clockwise, down the inner face first: face 1 is inside
			fmt.Fprintf(&b, "%d, %d, %d, %d, %d, %d, %d, %d, %d\n", e,
				s.node(a, c), s.node(a+2, c), s.node(a+2, c+2), s.node(a, c+2),
				s.node(a+1, c), s.node(a+2, c+1), s.node(a+1, c+2), s.node(a, c+1))
		}
	}
	fmt.Fprintln(&b, "*ELSET, ELSET=INSIDE")
	for i := range s.n {
		fmt.Fprintf(&b, "%d\n", i*s.m+1)
	}
	fmt.Fprintln(&b, "*NSET, NSET=FACE")
	for i := 0; i <= 2*s.n; i++ {
		fmt.Fprintf(&b, "%d\n", s.node(i, 0))
	}
	K := 1000 * 2 * c[0]
	fmt.Fprintf(&b, "*MATERIAL, NAME=RUBBER\n*HYPERELASTIC, YEOH\n%.10g, %.10g, %.10g, %.10g, 0, 0\n", c[0], c[1], c[2], 2/K)
	fmt.Fprintln(&b, "*SOLID SECTION, ELSET=WALL, MATERIAL=RUBBER")
	fmt.Fprintln(&b, "*BOUNDARY")
	for i := 0; i <= 2*s.n; i++ {
		for j := 0; j <= 2*s.m; j++ {
			if i%2 == 1 && j%2 == 1 {
				continue
			}
			r, y := fix(i, j)
			if r {
				fmt.Fprintf(&b, "%d, 1, 1\n", s.node(i, j))
			}
			if y {
				fmt.Fprintf(&b, "%d, 2, 2\n", s.node(i, j))
			}
		}
	}
	fmt.Fprintf(&b, "*STEP, NLGEOM, INC=1000\n*STATIC\n%.10g, 1, 1e-6, %.10g\n*DLOAD\nINSIDE, P1, %.10g\n*NODE PRINT, NSET=FACE\nU\n*END STEP\n", 1/float64(increments), 1/float64(increments), p)
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "job.inp"), []byte(b.String()), 0o600); err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(path, "job")
	cmd.Dir = dir
	cmd.Env = append(os.Environ(), "OMP_NUM_THREADS=1")
	begin := time.Now()
	text, err := cmd.CombinedOutput()
	took = time.Since(begin)
	if cmd.ProcessState != nil {
		took = cmd.ProcessState.UserTime() // other work on the machine does not count
	}
	if err != nil || strings.Contains(string(text), "*ERROR") {
		tail := string(text)
		t.Fatalf("ccx: %v\n%s", err, tail[max(0, len(tail)-1500):])
	}
	f, err := os.Open(filepath.Join(dir, "job.dat"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	scan := bufio.NewScanner(f)
	for scan.Scan() {
		w := strings.Fields(scan.Text())
		if len(w) > 3 && w[0] == "displacements" {
			at, _ := strconv.ParseFloat(w[len(w)-1], 64)
			ps = append(ps, at*p)
			face = append(face, make([][2]float64, 2*s.n+1))
			continue
		}
		if len(w) == 4 && len(face) > 0 {
			k, err := strconv.Atoi(w[0])
			if err != nil {
				continue
			}
			x, _ := strconv.ParseFloat(w[1], 64)
			y, _ := strconv.ParseFloat(w[2], 64)
			i := (k - 1) / (2*s.m + 1)
			r0, y0 := s.at(float64(i)/float64(2*s.n), 0)
			face[len(face)-1][i] = [2]float64{r0 + x, y0 + y}
		}
	}
	if len(ps) == 0 {
		t.Fatal("ccx wrote no displacements")
	}
	return ps, face, took
}

// volumeOf is the volume of revolution inside a face of quadratic pieces.
func volumeOf(face [][2]float64) float64 {
	g := [...]float64{-math.Sqrt(0.6), 0, math.Sqrt(0.6)}
	wt := [...]float64{5.0 / 9, 8.0 / 9, 5.0 / 9}
	var v float64
	for i := 0; i+2 < len(face); i += 2 {
		for k, x := range g {
			a, b, c := x*(x-1)/2, 1-x*x, x*(x+1)/2
			da, db, dc := x-0.5, -2*x, x+0.5
			r := a*face[i][0] + b*face[i+1][0] + c*face[i+2][0]
			dy := da*face[i][1] + db*face[i+1][1] + dc*face[i+2][1]
			v += wt[k] * math.Pi * r * r * dy
		}
	}
	return math.Abs(v)
}

// The same tube in another program.
func TestTubeAgainstCCX(t *testing.T) {
	const A, B = 8.0, 12.0 // mm, MPa
	s := solid{n: 1, m: 8, at: func(u, v float64) (float64, float64) { return A + (B-A)*v, 2 * (1 - u) }}
	ps, face, _ := ccxCurve(t, s, [3]float64{0.5, 0, 0}, 0.38, 20, func(int, int) (bool, bool) { return false, true })
	law := resin.NeoHooke(1e6)
	for i, p := range ps {
		a := face[i][1][0]
		ours := tubePressure(law, A/1e3, B/1e3, a/1e3, 5) / 1e6
		t.Logf("inner radius %.3f mm: ccx %.5f, shell %.5f (%+.3f %%), closed %.5f", a, p, ours, 100*(ours/p-1), tubeExact(A, B, a))
		if math.Abs(ours/p-1) > 0.01 {
			t.Errorf("off at %.3f mm", a)
		}
	}
}

// The same balloon in another program.
func TestSphereAgainstCCX(t *testing.T) {
	const R, h = 10.0, 0.2
	s := solid{n: 24, m: 2, at: func(u, v float64) (float64, float64) {
		a := math.Pi / 2 * u
		q := R + h*(v-0.5)
		r := q * math.Cos(a)
		if u == 1 {
			r = 0
		}
		return r, -q * math.Sin(a)
	}}
	ps, face, _ := ccxCurve(t, s, [3]float64{0.5, 0, 0}, 1.2*h/R, 12, func(i, _ int) (bool, bool) { return i == 2*s.n, i == 0 })
	law := resin.NeoHooke(1e6)
	for i, p := range ps {
		a := face[i][0][0]
		mid := math.Cbrt(a*a*a + R*R*R - (R-h/2)*(R-h/2)*(R-h/2)) // the volume between is kept
		ours := spherePressure(law, R/1e3, h/1e3, mid/R, 60, 3) / 1e6
		t.Logf("stretch %.4f: ccx %.6f, shell %.6f (%+.3f %%)", mid/R, p, ours, 100*(ours/p-1))
		if math.Abs(ours/p-1) > 0.01 {
			t.Errorf("off at stretch %.4f", mid/R)
		}
	}
}

// A whole preform of rubber, at rest under a rising pressure: pressure over
// the gain of volume, and the time of both programs at 60 by 5 elements. The
// ledge is a plane of symmetry: a clamped end bends, which the shell does not,
// and makes 3 % of the first gain of volume.
func TestPreformAgainstCCX(t *testing.T) {
	const mu, inner, wall, length = 2.0, 16.0, 3.0, 75.0 // MPa, mm
	rm := (inner + wall) / 2
	total := length + rm*math.Pi/2
	s := solid{n: 60, m: 5, at: func(u, v float64) (float64, float64) {
		x := wall * (v - 0.5)
		d := u * total
		if d <= length {
			return rm + x, -d
		}
		a := (d - length) / rm
		r := (rm + x) * math.Cos(a)
		if u == 1 {
			r = 0
		}
		return r, -length - (rm+x)*math.Sin(a)
	}}
	const top, inc = 0.44, 11
	ps, face, took := ccxCurve(t, s, [3]float64{mu / 2, 0, 0}, top, inc, func(i, _ int) (bool, bool) { return i == 2*s.n, i == 0 })

	c := DefaultCase()
	c.Preform = Straight(inner/1e3, wall/1e3, length/1e3, wall/1e3)
	c.Law = resin.NeoHooke(mu * 1e6)
	c.Heat.Uniform = 373.15
	c.Recipe.Rod.Speed = 0
	c.Recipe.Pre.Start = Start{}
	c.Numbers.Isothermal = true
	sv, _, err := start(&c)
	if err != nil {
		t.Fatal(err)
	}
	sv.c.Numbers.Theta = 1                                 // at rest
	sv.w.kind[0], sv.w.tz[0], sv.w.tr[0] = nodeSlide, 0, 1 // a plane of symmetry at the ledge
	sv.air.dead = 1e3                                      // so large that the pressure does not feel the volume
	still := sv.V
	begin := time.Now()
	var ours []float64
	for _, p := range ps {
		sv.air.mass = (p*1e6 + sv.air.ambient) * (sv.V + sv.air.dead) / (AirConstant * sv.air.T)
		sv.air.guess = 0
		if !sv.trial(10) || !sv.commit(10) {
			t.Fatalf("no equilibrium at %g MPa", p)
		}
		clear(sv.w.vz)
		clear(sv.w.vr)
		ours = append(ours, (sv.V-still)*1e9)
	}
	mine := time.Since(begin)
	rest := make([][2]float64, 2*s.n+1)
	for i := range rest {
		rest[i][0], rest[i][1] = s.at(float64(i)/float64(2*s.n), 0)
	}
	// the gain of volume: chords hold a little less at rest
	for i, p := range ps {
		v := volumeOf(face[i]) - volumeOf(rest)
		// pressure of ours at the volume of the other: along the curve
		k := i
		if k == 0 {
			k = 1
		}
		slope := (ps[k] - ps[k-1]) / (ours[k] - ours[k-1])
		dp := (v - ours[i]) * slope / p
		t.Logf("p %.3f MPa: volume gained ccx %.1f, shell %.1f mm³ (%+.2f %%), pressure at the same volume %+.2f %%", p, v, ours[i], 100*(ours[i]/v-1), 100*dp)
		if math.Abs(dp) > 0.01 {
			t.Errorf("off at %g MPa", p)
		}
	}
	t.Logf("%d by %d elements, %d increments: ccx %v of processor time, shell %v, ratio %.0f", s.n, s.m, len(ps), took.Round(time.Millisecond), mine.Round(time.Microsecond), took.Seconds()/mine.Seconds())
}
