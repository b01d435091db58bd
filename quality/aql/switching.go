package aql

import "fmt"

// Scheme is a set of switching rules.
type Scheme string

// The schemes: both alike but for the way to reduced inspection.
const (
	ISO Scheme = "ISO 2859-1"   // by a switching score of 30
	MIL Scheme = "MIL-STD-105E" // by ten lots accepted in a row; its limit number on their defects is not kept here
)

// State is where a series of lots stands. The zero value with a scheme is
// normal inspection at the start.
type State struct {
	Scheme     Scheme     `json:"scheme"`
	Inspection Inspection `json:"inspection"`
	Stopped    bool       `json:"stopped"`  // five lots rejected under tightened inspection: stop and mend the process
	Recent     []bool     `json:"recent"`   // of the last five lots on normal inspection, whether accepted
	InARow     int        `json:"in_a_row"` // lots accepted in a row at this severity
	Score      int        `json:"score"`    // switching score on normal inspection
	Rejected   int        `json:"rejected"` // lots rejected on tightened inspection
}

// Start returns normal inspection.
func Start(s Scheme) State { return State{Scheme: s, Inspection: Normal} }

// Lot is the result of one lot at first inspection; lots inspected again do
// not count.
type Lot struct {
	Plan          Plan
	Nonconforming int
	Steady        bool // production runs steadily and the authority wants reduced inspection
}

// Next returns the state after a lot, and why it changed; "" where it did
// not. The lot must have been inspected at the severity of the state.
//
// Normal to tightened: 2 of 5 or fewer lots rejected. Tightened to normal: 5
// accepted in a row. Tightened to stop: 5 rejected. Normal to reduced: score
// 30, or 10 accepted in a row, and steady production. Reduced to normal: a lot
// rejected or between Ac and Re, or production not steady. The score grows by 2
// for a lot accepted with Ac 0 or 1, by 3 for one that would also be accepted
// at the next tighter AQL with Ac of 2 and more, and falls to 0 otherwise.
// Source: ISO2859, MILSTD105E, rules from memory.
func (s State) Next(l Lot) (State, string, error) {
	if s.Stopped {
		return s, "", fmt.Errorf("aql: switching: inspection has stopped")
	}
	if l.Plan.Inspection != s.Inspection {
		return s, "", fmt.Errorf("aql: switching: the lot was inspected %s, the series is %s", l.Plan.Inspection, s.Inspection)
	}
	d, err := l.Plan.Decide(l.Nonconforming)
	if err != nil {
		return s, "", err
	}
	accepted := d != Reject
	s.Recent = append([]bool(nil), s.Recent...)
	if accepted {
		s.InARow++
	} else {
		s.InARow = 0
	}
	to := func(i Inspection, why string) (State, string, error) {
		return State{Scheme: s.Scheme, Inspection: i}, why, nil
	}
	switch s.Inspection {
	case Tightened:
		if !accepted {
			s.Rejected++
		}
		if s.Rejected >= 5 {
			s.Stopped = true
			return s, "5 lots rejected under tightened inspection: stop until the process is mended", nil
		}
		if s.InARow >= 5 {
			return to(Normal, "5 lots accepted in a row")
		}
	case Reduced:
		switch {
		case d == Reject:
			return to(Normal, "a lot was rejected")
		case d == AcceptNormal:
			return to(Normal, "a result between acceptance and rejection number")
		case !l.Steady:
			return to(Normal, "production is not steady")
		}
	case Normal:
		s.Recent = append(s.Recent, accepted)
		if len(s.Recent) > 5 {
			s.Recent = s.Recent[len(s.Recent)-5:]
		}
		bad := 0
		for _, ok := range s.Recent {
			if !ok {
				bad++
			}
		}
		if bad >= 2 {
			return to(Tightened, fmt.Sprintf("2 of the last %d lots rejected", len(s.Recent)))
		}
		if s.Score, err = score(s.Score, l, accepted); err != nil {
			return s, "", err
		}
		if l.Steady && s.Scheme == ISO && s.Score >= 30 {
			return to(Reduced, fmt.Sprintf("switching score %d", s.Score))
		}
		if l.Steady && s.Scheme == MIL && s.InARow >= 10 {
			return to(Reduced, "10 lots accepted in a row")
		}
	}
	return s, "", nil
}

func score(before int, l Lot, accepted bool) (int, error) {
	if !accepted {
		return 0, nil
	}
	if l.Plan.Ac <= 1 {
		return before + 2, nil
	}
	aql, ok, err := Tighter(l.Plan.AQL)
	if err != nil || !ok {
		return 0, err
	}
	p, err := Single(Normal, l.Plan.Letter, aql)
	if err != nil {
		return 0, err
	}
	if l.Nonconforming <= p.Ac {
		return before + 3, nil
	}
	return 0, nil
}
