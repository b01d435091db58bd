package quality

import (
	"fmt"
	"math"
	"strings"
	"time"

	"costrel/unit"
)

// Fault is one thing wrong with one limit of a list.
type Fault struct {
	Index  int    `json:"index"` // place in the list, from 0
	Figure string `json:"figure"`
	Reason string `json:"reason"`
}

// Faults are all faults of a list of limits.
type Faults []Fault

// Error returns one line a fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i, x := range f {
		lines[i] = fmt.Sprintf("quality: limit %d on %q: %s", x.Index+1, x.Figure, x.Reason)
	}
	return strings.Join(lines, "\n")
}

// Check returns every fault of a list of limits as [Faults], nil where there
// is none: an unknown figure, a side that is neither min nor max, a kind that
// is not the figure's, an unknown unit, a value that is not finite, a date
// that is not YYYY-MM-DD, and a minimum above a maximum of the same figure,
// whoever owns them. find returns the kind of a figure.
func Check(limits []Limit, find func(key string) (unit.Kind, bool)) error {
	var out Faults
	add := func(i int, format string, args ...any) {
		out = append(out, Fault{Index: i, Figure: limits[i].Figure, Reason: fmt.Sprintf(format, args...)})
	}
	sound := make([]bool, len(limits))
	for i, l := range limits {
		before := len(out)
		kind, known := find(l.Figure)
		if !known {
			add(i, "no figure has this key")
		} else if kind != l.Kind {
			add(i, "the limit is a %s, the figure a %s", orNone(l.Kind), kind)
		}
		if l.Side != Min && l.Side != Max {
			add(i, "side %q is neither min nor max", l.Side)
		}
		if math.IsNaN(l.Value) || math.IsInf(l.Value, 0) {
			add(i, "the value %g is not finite", l.Value)
		}
		if l.Unit != "" {
			if _, ok := unit.Find(l.Kind, l.Unit); !ok {
				add(i, "unit %q is none of %s", l.Unit, l.Kind)
			}
		}
		if l.Date != "" {
			if _, err := time.Parse(time.DateOnly, l.Date); err != nil {
				add(i, "date %q is not YYYY-MM-DD", l.Date)
			}
		}
		sound[i] = len(out) == before
	}
	for i, lo := range limits {
		for j, hi := range limits {
			if sound[i] && sound[j] && lo.Figure == hi.Figure && lo.Side == Min && hi.Side == Max && lo.Value > hi.Value+hi.slack() {
				add(i, "minimum %s is above maximum %s (limit %d)", show(lo), show(hi), j+1)
			}
		}
	}
	if out == nil {
		return nil
	}
	return out
}

func orNone(k unit.Kind) string {
	if k == "" {
		return "value without a kind"
	}
	return string(k)
}

// show prints the value of a limit with its owner.
func show(l Limit) string {
	name := l.Unit
	if name == "" {
		name = unit.Preferred(l.Kind, unit.EU)
	}
	s := "‹" + unit.Format(l.Kind, l.Value, name, 6) + "›"
	if l.Owner != "" {
		s += " of " + l.Owner
	}
	return s
}
