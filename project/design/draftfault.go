package design

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"costrel/unit"
)

// AnswerFault is an answer with which no design can be drafted.
type AnswerFault struct {
	Path     string // of the answer, such as "bottle.height"; "" for all of them
	Text     string // the answer
	Message  string
	Nearest  string // the nearest answer that works beside the others; "" where none does
	Expected string
}

// Error returns the fault with the answer it is about.
func (f *AnswerFault) Error() string { return f.Named(f.Path) }

// Named returns the fault with the answer called by another name, such as that
// of an option.
func (f *AnswerFault) Named(name string) string {
	text := f.Message
	switch {
	case name != "" && strings.Contains(text, clip(f.Text)):
		text = name + ": " + text
	case name != "":
		text = fmt.Sprintf("%s %q: %s", name, clip(f.Text), text)
	}
	if f.Expected != "" {
		text += "; expected " + f.Expected
	}
	return text
}

// sizes are the answers that the main dimensions follow.
var sizes = []string{"bottle.diameter", "bottle.height", "brief.nominal"}

// blame says which answers a draft failed for, and what would do in their
// place: for an answer of size the nearest that works beside the others, found
// by bisection.
func blame(class string, answers map[string]string, failed error) error {
	var faults Faults
	if errors.As(failed, &faults) {
		var told []error
		for _, f := range faults {
			if text := answers[f.Path]; text != "" && !slices.Contains(sizes, f.Path) {
				told = append(told, &AnswerFault{Path: f.Path, Text: text, Message: f.Message, Expected: f.Expected})
			}
		}
		if told != nil {
			return errors.Join(told...)
		}
	}
	why := because(failed)
	var told []error
	var given []string
	for _, path := range sizes {
		text := strings.TrimSpace(answers[path])
		if text == "" {
			continue
		}
		given = append(given, path)
		if near, more := nearestAnswer(class, answers, path); near != "" {
			told = append(told, &AnswerFault{Path: path, Text: text, Message: why, Nearest: near, Expected: near + more + ", the nearest that works beside the other answers, or another pack class"})
		}
	}
	if told != nil {
		return errors.Join(told...)
	}
	f := &AnswerFault{Message: "the answers do not go together: " + why}
	if len(given) > 0 {
		f.Expected = "fewer of " + strings.Join(given, ", ") + ": what is left out follows from the rest; or another pack class"
	}
	return f
}

// because returns the reason of a failed draft without places in a text that
// nobody has seen.
func because(failed error) string {
	var faults Faults
	if !errors.As(failed, &faults) {
		return failed.Error()
	}
	lines := make([]string, len(faults))
	for i, f := range faults {
		lines[i] = fmt.Sprintf("it leads to %s: %s (accepted: %s)", f.Path, f.Message, f.Expected)
	}
	return strings.Join(lines, "; ")
}

// nearestAnswer returns the answer of size nearest to the one given with which
// the draft works, in the unit of the answer, and whether more or less works
// too. It returns "" when the draft fails without that answer as well.
func nearestAnswer(class string, answers map[string]string, path string) (text, more string) {
	it, _ := Lookup(path)
	q, err := unit.Parse(it.Field.Kind, answers[path])
	if err != nil {
		return "", ""
	}
	with := func(text string) (*draft, error) {
		other := make(map[string]string, len(answers))
		for k, v := range answers {
			other[k] = v
		}
		other[path] = text
		w, _, err := newDraft(class, other)
		return w, err
	}
	w, err := with("")
	if err != nil {
		return "", ""
	}
	good, _, _ := w.to.Number(path)
	bad := q.SI
	if good == bad || good <= 0 || bad <= 0 {
		return "", ""
	}
	show := func(x float64, digits int) string { return unit.Format(it.Field.Kind, x, q.Symbol, digits) }
	for math.Abs(good/bad-1) > 2e-3 {
		mid := math.Sqrt(good * bad)
		if _, err := with(show(mid, 6)); err == nil {
			good = mid
		} else {
			bad = mid
		}
	}
	away, more := math.Ceil, " or more"
	if good < bad {
		away, more = math.Floor, " or less"
	}
	if answers["bottle.diameter"] != "" && answers["bottle.height"] != "" {
		more = "" // between a headspace too small and one too large
	}
	u, _ := unit.Find(it.Field.Kind, q.Symbol)
	for digits := 2; digits <= 6; digits++ {
		step := math.Pow10(int(math.Floor(math.Log10(good/u.Scale))) + 1 - digits)
		round := away(good/u.Scale/step) * step * u.Scale
		if math.Abs(round/good-1) > 0.02 {
			continue
		}
		if _, err := with(show(round, digits)); err == nil {
			return show(round, digits), more
		}
	}
	return "", ""
}
