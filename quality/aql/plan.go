package aql

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
)

// Inspection is the severity of inspection.
type Inspection string

// The severities.
const (
	Normal    Inspection = "normal"
	Tightened Inspection = "tightened"
	Reduced   Inspection = "reduced"
)

// Plan is a single sampling plan: draw N, accept with up to Ac, reject from
// Re. Where Re exceeds Ac+1 (reduced inspection) a result between accepts the
// lot and returns to normal inspection.
type Plan struct {
	Inspection Inspection `json:"inspection"`
	Letter     string     `json:"letter"` // of the lot; the arrows of the table may lead to the sample of another
	AQL        float64    `json:"aql"`    // per cent nonconforming; above 10, nonconformities per 100 units
	N          int        `json:"n"`
	Ac         int        `json:"ac"`
	Re         int        `json:"re"`
	All        bool       `json:"all"` // the sample is as large as the lot: inspect every piece
}

//go:embed single.csv
var singleText string

type singleKey struct {
	inspection Inspection
	letter     string
	aql        float64
}

type singleTable struct {
	plans map[singleKey]Plan
	aqls  []float64 // rising
}

var single = sync.OnceValues(func() (singleTable, error) {
	out := singleTable{plans: map[singleKey]Plan{}}
	for i, line := range strings.Split(strings.TrimSpace(singleText), "\n")[1:] {
		f := strings.Split(line, ",")
		if len(f) != 6 {
			return out, fmt.Errorf("aql: single.csv:%d: %d fields, want 6", i+2, len(f))
		}
		a, err := strconv.ParseFloat(f[2], 64)
		if err != nil {
			return out, fmt.Errorf("aql: single.csv:%d: AQL %q", i+2, f[2])
		}
		p := Plan{Inspection: Inspection(f[0]), Letter: f[1], AQL: a}
		for j, v := range []*int{&p.N, &p.Ac, &p.Re} {
			if *v, err = strconv.Atoi(f[3+j]); err != nil {
				return out, fmt.Errorf("aql: single.csv:%d: number %q", i+2, f[3+j])
			}
		}
		k := singleKey{p.Inspection, p.Letter, p.AQL}
		if _, twice := out.plans[k]; twice {
			return out, fmt.Errorf("aql: single.csv:%d: the plan stands twice", i+2)
		}
		out.plans[k] = p
		if n := len(out.aqls); n == 0 || out.aqls[n-1] < a {
			out.aqls = append(out.aqls, a)
		}
	}
	return out, nil
})

// AQLs returns the acceptance quality limits of the table, rising. Up to 10
// they are per cent nonconforming, above it nonconformities per 100 units.
func AQLs() ([]float64, error) {
	t, err := single()
	return append([]float64(nil), t.aqls...), err
}

// Tighter returns the next smaller AQL of the table; ok is false at its end.
func Tighter(aql float64) (tighter float64, ok bool, err error) {
	t, err := single()
	if err != nil {
		return 0, false, err
	}
	i := t.index(aql)
	if i < 1 {
		return 0, false, nil
	}
	return t.aqls[i-1], true, nil
}

func (t singleTable) index(aql float64) int {
	for i, a := range t.aqls {
		if math.Abs(a-aql) <= 1e-9*a {
			return i
		}
	}
	return -1
}

// Single returns the plan of a code letter and an AQL of the table, arrows
// resolved. Source: MILSTD105E, tables II-A, II-B and II-C.
func Single(inspection Inspection, letter string, aql float64) (Plan, error) {
	t, err := single()
	if err != nil {
		return Plan{}, err
	}
	i := t.index(aql)
	if i < 0 {
		return Plan{}, fmt.Errorf("aql: plan: AQL %g is none of %v", aql, t.aqls)
	}
	p, ok := t.plans[singleKey{inspection, letter, t.aqls[i]}]
	if !ok {
		return Plan{}, fmt.Errorf("aql: plan: no %s inspection with code letter %q", inspection, letter)
	}
	return p, nil
}

// ForLot returns the plan of a lot at a level. Where the sample is as large as
// the lot, every piece is inspected: N is then the lot and All is true.
func ForLot(lot int, level Level, aql float64, inspection Inspection) (Plan, error) {
	letter, err := CodeLetter(lot, level)
	if err != nil {
		return Plan{}, err
	}
	p, err := Single(inspection, letter, aql)
	if err != nil {
		return Plan{}, err
	}
	if p.N >= lot {
		p.N, p.All = lot, true
	}
	return p, nil
}

// Decision is what a sample says of its lot.
type Decision string

// The decisions.
const (
	Accept       Decision = "accept"
	AcceptNormal Decision = "accept, return to normal" // reduced inspection, between Ac and Re
	Reject       Decision = "reject"
)

// Decide returns the decision on a lot of which the sample holds the given
// number of nonconforming pieces.
func (p Plan) Decide(nonconforming int) (Decision, error) {
	if nonconforming < 0 || p.AQL <= 10 && nonconforming > p.N {
		return "", fmt.Errorf("aql: decision: %d nonconforming in %d", nonconforming, p.N)
	}
	switch {
	case nonconforming <= p.Ac:
		return Accept, nil
	case nonconforming < p.Re:
		return AcceptNormal, nil
	}
	return Reject, nil
}
