package cite

import "math"

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
// deterministic and must not panic.
type Check struct {
	ID        string // dotted and stable: "drink.kell.20C"
	Case      string // what is compared, in words
	Source    string // key in sources.txt
	Unit      string // unit of ours, published and allowed
	Ours      func() float64
	Published float64
	Allowed   float64 // largest allowed deviation; absolute unless Relative
	Relative  bool    // Allowed is a fraction of Published
	Mark      Mark
	Note      string
	// Known names the reason of a known failure. Such a row stays in the
	// table and is shown as failing; the tests expect it to fail.
	Known string
}

// Result is a check as run.
type Result struct {
	Check
	Value     float64 // ours
	Deviation float64 // ours - published, in the check's unit or as a fraction
	OK        bool
}

// Run evaluates the check.
func (c Check) Run() Result {
	r := Result{Check: c, Value: c.Ours()}
	r.Deviation = r.Value - c.Published
	if c.Relative && c.Published != 0 {
		r.Deviation /= math.Abs(c.Published)
	}
	r.OK = !math.IsNaN(r.Value) && !math.IsInf(r.Value, 0) && math.Abs(r.Deviation) <= c.Allowed
	return r
}
