package run

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"unicode"

	"costrel/figure"
	"costrel/unit"
)

// TestRecompute works out the equation that a figure shows, from the numbers
// of its inputs and nothing else: what the program computed must come out.
// Only the part before the first comma counts, which defines the figure.
func TestRecompute(t *testing.T) {
	must := strings.Fields(`preform.mass preform.ratio.planar preform.ratio.hoop.mid bottle.height wall.min wall.panel.mean pack.mass stack.load
		air.volume air.volume.net air.volume.strict air.energy.ideal air.energy cost.resin cost.air cost.oven cost.total footprint.total
		inject.cooling.time inject.cycle inject.fill.time inject.acetaldehyde inject.iv`)
	fizzy := strings.Fields(`pack.pressure.fill pack.pressure.store pack.pressure.hot pack.stress.hoop.store closure.lift growth.volume.day1 fillpoint.drop.day1
		shelf.loss.end shelf.loss.wall shelf.loss.sorption shelf.loss.growth shelf.loss.closure shelf.loss.headspace shelf.loss.water
		shelf.pressure.max shelf.oxygen.end`)
	hot := strings.Fields(`hotfill.contraction hotfill.budget.gas hotfill.budget.drink hotfill.budget.nitrogen hotfill.budget.shrinkage hotfill.panel.need
		hotfill.vacuum.settled hotfill.panel.need.settled shelf.panel.max`)
	for name, doc := range everyDocument(t) {
		r := Check(doc, NewCache(32))
		keys := slices.Clone(must)
		switch {
		case carbonated(r.Doc.Design):
			keys = append(keys, fizzy...)
		case hotFilled(r.Doc.Design):
			keys = append(keys, hot...)
		}
		done := 0
		for _, key := range keys {
			i := slices.IndexFunc(r.Figures, func(f figure.Figure) bool { return f.Key == key })
			if i < 0 {
				continue // why not is another test's matter
			}
			done++
			f := r.Figures[i]
			_, right, _ := strings.Cut(f.Origin.Equation, "=")
			got, err := worked(right, f.Origin.Inputs)
			// The panel by mid-wall area of a cylinder is off by its rounded ends.
			allowed := map[string]float64{"wall.panel.mean": 1e-2}[key] + 1e-9
			if err != nil {
				t.Errorf("%s: %s: %s: %v", name, key, f.Origin.Equation, err)
			} else if math.Abs(got-f.Value) > allowed*math.Abs(f.Value)+1e-15 {
				t.Errorf("%s: %s: %s gives %g, shown is %g", name, key, f.Origin.Equation, got, f.Value)
			}
		}
		if done < 20 {
			t.Errorf("%s: only %d figures worked out", name, done)
		}
	}
}

// TestHotBalance closes the balance that hotfill.vacuum shows.
func TestHotBalance(t *testing.T) {
	f := figureOf(t, Check(example(t, "wrenhollow.yaml"), NewCache(32)), "hotfill.vacuum")
	parts := strings.Split(f.Origin.Equation, ", ")
	if len(parts) != 3 {
		t.Fatal(f.Origin.Equation)
	}
	left, right, _ := strings.Cut(parts[0], "=")
	a, errA := worked(left, f.Origin.Inputs)
	b, errB := worked(right, f.Origin.Inputs)
	if errA != nil || errB != nil || math.Abs(a/b-1) > 1e-9 {
		t.Errorf("%s: %g against %g, %v, %v", parts[0], a, b, errA, errB)
	}
	for part, want := range map[string]float64{parts[1]: f.Value, parts[2]: b / (unit.GasConstant * 293.15)} {
		_, right, _ := strings.Cut(part, "=")
		if got, err := worked(right, f.Origin.Inputs); err != nil || math.Abs(got/want-1) > 1e-9 {
			t.Errorf("%s: %g, want %g, %v", part, got, want, err)
		}
	}
}

// TestLossParts adds the parts of the loss.
func TestLossParts(t *testing.T) {
	for name, doc := range everyDocument(t) {
		r := Check(doc, NewCache(32))
		if !carbonated(r.Doc.Design) || !slices.ContainsFunc(r.Figures, func(f figure.Figure) bool { return f.Key == "shelf.loss.end" }) {
			continue
		}
		sum := 0.0
		for _, part := range []string{"wall", "sorption", "growth", "closure", "headspace", "water"} {
			sum += value(t, r, "shelf.loss."+part)
		}
		if total := value(t, r, "shelf.loss.end"); math.Abs(sum-total) > 1e-6*total {
			t.Errorf("%s: parts add up to %.6f %%, total %.6f %%", name, 100*sum, 100*total)
		}
	}
}

// reader works out an expression in which factors stand side by side.
type reader struct {
	rs     []rune
	i      int
	values map[string]float64
	err    error
}

func worked(text string, inputs []figure.Input) (float64, error) {
	r := &reader{rs: []rune(text), values: map[string]float64{"R": unit.GasConstant, "π": math.Pi}}
	for i := len(inputs) - 1; i >= 0; i-- { // the first of a name counts
		r.values[inputs[i].Symbol] = inputs[i].Value
	}
	v := r.sum()
	if c := r.peek(); r.err == nil && c != 0 && c != ',' && c != '=' {
		r.err = fmt.Errorf("stops at %q", string(r.rs[r.i:]))
	}
	return v, r.err
}

func (r *reader) peek() rune {
	for r.i < len(r.rs) && r.rs[r.i] == ' ' {
		r.i++
	}
	if r.i == len(r.rs) {
		return 0
	}
	return r.rs[r.i]
}

func (r *reader) sum() float64 {
	v := r.product()
	for {
		switch r.peek() {
		case '+':
			r.i++
			v += r.product()
		case '-':
			r.i++
			v -= r.product()
		default:
			return v
		}
	}
}

func (r *reader) product() float64 {
	v := r.factor()
	for {
		switch c := r.peek(); {
		case c == '/':
			r.i++
			v /= r.factor()
		case c == '·':
			r.i++
			v *= r.factor()
		case c == '(' || unicode.IsLetter(c) || unicode.IsDigit(c):
			v *= r.factor()
		default:
			return v
		}
		if r.err != nil {
			return v
		}
	}
}

func (r *reader) factor() float64 {
	v := r.atom()
	switch r.peek() {
	case '²':
		r.i++
		return v * v
	case '³':
		r.i++
		return v * v * v
	}
	return v
}

func (r *reader) atom() float64 {
	switch c := r.peek(); {
	case c == '-':
		r.i++
		return -r.product()
	case c == '(':
		return r.list()[0]
	case unicode.IsDigit(c):
		var v float64
		start := r.i
		for ; r.i < len(r.rs) && (unicode.IsDigit(r.rs[r.i]) || r.rs[r.i] == '.'); r.i++ {
		}
		if _, err := fmt.Sscan(string(r.rs[start:r.i]), &v); err != nil {
			r.err = err
		}
		for name, si := range map[string]float64{" m/s²": 1, " bar": 1e5} {
			if strings.HasPrefix(string(r.rs[r.i:]), name) {
				r.i += len([]rune(name))
				v *= si
			}
		}
		return v
	case unicode.IsLetter(c):
		start := r.i
		for ; r.i < len(r.rs) && (unicode.IsLetter(r.rs[r.i]) || unicode.IsDigit(r.rs[r.i]) || r.rs[r.i] == '_'); r.i++ {
		}
		name := string(r.rs[start:r.i])
		if r.i < len(r.rs) && r.rs[r.i] == '(' {
			return r.call(name, r.list())
		}
		v, ok := r.values[name]
		if !ok && r.err == nil {
			r.err = fmt.Errorf("%s has no number", name)
		}
		return v
	default:
		if r.err == nil {
			r.err = fmt.Errorf("stops at %q", string(r.rs[r.i:]))
		}
		return 0
	}
}

// list reads values in brackets.
func (r *reader) list() []float64 {
	r.i++
	out := []float64{r.sum()}
	for r.peek() == ',' {
		r.i++
		out = append(out, r.sum())
	}
	if r.peek() == ')' {
		r.i++
	} else if r.err == nil {
		r.err = fmt.Errorf("bracket open")
	}
	return out
}

func (r *reader) call(name string, args []float64) float64 {
	switch name {
	case "ln":
		return math.Log(args[0])
	case "exp":
		return math.Exp(args[0])
	case "atan":
		return math.Atan(args[0])
	case "min":
		return slices.Min(args)
	case "max":
		return slices.Max(args)
	}
	if r.err == nil {
		r.err = fmt.Errorf("no function %s", name)
	}
	return 0
}
