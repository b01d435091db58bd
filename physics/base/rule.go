package base

import (
	"fmt"
	"math"

	"costrel/cite"
	"costrel/unit"
)

// Shape is what the rules of thumb look at; 0 is not known and skipped.
type Shape struct {
	ValleyLeast        float64 // m, least single wall in the valleys
	ValleyMean         float64 // m, mean wall in the valleys
	GateOffset         float64 // m, gate from the axis; 0 counts as not known
	IntrinsicViscosity float64 // m³/kg of the preform
	Clearance          float64 // m, gate above the standing plane, no pressure
	StandingRatio      float64 // standing diameter over body diameter
	ValleyAngle        float64 // rad of the circle, at the standing radius
	Fillet             float64 // m, radius between foot and valley
}

// Finding is one rule and how a base stands to it.
type Finding struct {
	Key, Label string
	Value      float64    // as given; 0 not known
	Limit      cite.Datum // SI
	Known, OK  bool
}

// Rules returns the rules of thumb for petaloid bases of carbonated drinks,
// each with its limit, source and whether the base keeps it. They are habits
// of the trade (ISBTStressCrack, from memory), no limits of strength. It
// refuses negative and infinite values.
func Rules(s Shape) ([]Finding, error) {
	var out []Finding
	for _, r := range []struct {
		key   string
		value float64
		most  bool // the limit is an upper one
	}{
		{"valley.least", s.ValleyLeast, false},
		{"valley.mean", s.ValleyMean, false},
		{"gate.offset", s.GateOffset, true},
		{"viscosity.least", s.IntrinsicViscosity, false},
		{"clearance.least", s.Clearance, false},
		{"clearance.most", s.Clearance, true},
		{"standing.least", s.StandingRatio, false},
		{"standing.most", s.StandingRatio, true},
		{"valley.angle", s.ValleyAngle, false},
		{"fillet.least", s.Fillet, false},
	} {
		d := datum("rule", r.key)
		if !(r.value >= 0) || math.IsInf(r.value, 0) {
			return nil, fmt.Errorf("base: rules: %s: %g is not 0 (not known) or a positive number", r.key, r.value)
		}
		f := Finding{Key: r.key, Label: d.Label, Value: r.value, Limit: d, Known: r.value > 0}
		const slack = 1e-12 // rounding of converted units
		if r.most {
			f.OK = f.Known && r.value <= d.Value*(1+slack)
		} else {
			f.OK = f.Known && r.value >= d.Value*(1-slack)
		}
		out = append(out, f)
	}
	return out, nil
}

// Caution is a text to show with an answer, and its source.
type Caution struct {
	Text   string
	Source string // key in cite
}

// Cautions returns the cautions of stress-crack and pressure tests at a gauge
// pressure, with caustic or without. They are no safety analysis.
func Cautions(p unit.GaugePressure, caustic bool) []Caution {
	var out []Caution
	if caustic {
		out = append(out, Caution{"Caustic stress-crack bath: goggles, gloves and a shield. The bottle stands under pressure and may burst without warning and throw caustic.", "CommonPractice"})
	}
	if p > 0 {
		out = append(out, Caution{"Pressurise with water, not gas, behind a full guard; a base may fly off. Let the pressure off before you reach in.", "CommonPractice"})
	}
	return append(out,
		Caution{"Petaloid bases are covered by many patents: check the rights to a shape before you cut a mould.", "CommonPractice"},
		Caution{"Stress of gate and straps and the crack index are estimates that rank bases. They replace no caustic, thermal-stability or drop test of this bottle.", "CommonPractice"})
}
