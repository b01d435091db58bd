package cite

import (
	"fmt"
	"math"
)

// Mark says what kind of evidence a check is.
type Mark string

// The marks of a check.
const (
	Independent Mark = "independent" // published value, analytic solution or another program
	Regression  Mark = "regression"  // own arithmetic that must be reproduced
	Memory      Mark = "from memory" // published value remembered, not read
	Practice    Mark = "common practice"
)

// Check is one row of the table of published checks: our number beside a
// published one. Ours runs the code when the table is asked for; it must be
// deterministic and must not panic. Where the code errs it returns NaN, which
// is a failed check.
type Check struct {
	ID        string         `json:"id"`     // dotted and stable: "drink.kell.20C"
	Case      string         `json:"case"`   // what is compared, in words
	Source    string         `json:"source"` // key in sources.txt
	Unit      string         `json:"unit"`   // unit of ours, published and allowed
	Ours      func() float64 `json:"-"`
	Published float64        `json:"published"`
	Allowed   float64        `json:"allowed"`  // largest allowed deviation; absolute unless Relative
	Relative  bool           `json:"relative"` // Allowed is a fraction of Published
	Mark      Mark           `json:"mark"`
	Note      string         `json:"note,omitempty"`
	// Known names the reason of a known failure. Such a row stays in the
	// table and is shown as failing; the tests expect it to fail.
	Known string `json:"known,omitempty"`
}

// Or returns v, or NaN where there is an error: what Ours gives when the code
// errs.
func Or(v float64, err error) float64 {
	if err != nil {
		return math.NaN()
	}
	return v
}

// Result is a check as run.
type Result struct {
	Check
	Value     float64 `json:"value"`     // ours; 0 where there is none, see Problem
	Deviation float64 `json:"deviation"` // ours - published, in the check's unit or as a fraction
	OK        bool    `json:"ok"`
	Problem   string  `json:"problem,omitempty"` // why there is no value or the row cannot fail
}

// Run evaluates the check. A row that gives no finite number, panics, or is
// written so that it could not fail is not OK, and Problem says why; Value and
// Deviation are finite in any case.
func (c Check) Run() Result {
	r := Result{Check: c}
	finite := func(x float64) bool { return !math.IsNaN(x) && !math.IsInf(x, 0) }
	switch {
	case c.Ours == nil:
		r.Problem = "has nothing to run"
	case !finite(c.Published):
		r.Problem = "has no finite published value"
	case !finite(c.Allowed) || c.Allowed < 0:
		r.Problem = fmt.Sprintf("allows %v, which is no limit", c.Allowed)
	case c.Relative && c.Published == 0:
		r.Problem = "is relative to a published value of zero"
	}
	if r.Problem != "" {
		return r
	}
	value, problem := c.evaluate()
	if problem == "" && !finite(value) {
		problem = fmt.Sprintf("gave %v", value)
	}
	deviation := value - c.Published
	if c.Relative {
		deviation /= math.Abs(c.Published)
	}
	if problem == "" && !finite(deviation) {
		problem = fmt.Sprintf("gave %v, beyond comparison", value)
	}
	if problem != "" {
		r.Problem = problem
		return r
	}
	r.Value, r.Deviation = value, deviation
	r.OK = math.Abs(deviation) <= c.Allowed
	return r
}

// evaluate runs Ours; a panic becomes the problem of this row, so that it
// hides no other.
func (c Check) evaluate() (value float64, problem string) {
	defer func() {
		if p := recover(); p != nil {
			problem = fmt.Sprintf("panicked: %v", p)
		}
	}()
	return c.Ours(), ""
}
