package oven

import (
	"fmt"
	"math"
	"strings"

	"costrel/physics/resin"
	"costrel/unit"
)

// Refusal says why a heated preform cannot be blown: where, how far, what to
// do.
type Refusal struct {
	What   string           // "melts" or "cold"
	Place  float64          // below the ledge [m]
	Value  unit.Temperature // found
	Limit  unit.Temperature
	Remedy string
}

func (r *Refusal) Error() string {
	if r.What == "melts" {
		return fmt.Sprintf("oven: preform melts: outer face ‹%.1f °C› at ‹%.1f mm› below the ledge, limit ‹%.1f °C›: %s", r.Value.Celsius(), r.Place*1e3, r.Limit.Celsius(), r.Remedy)
	}
	return fmt.Sprintf("oven: preform is cold: mean ‹%.1f °C›, limit ‹%.1f °C›, coldest at ‹%.1f mm› below the ledge: %s", r.Value.Celsius(), r.Limit.Celsius(), r.Place*1e3, r.Remedy)
}

// Judge returns what is wrong with a temperature field whose slices are those
// of [Slices] for the same preform and number: an error where it melts or is
// cold, warnings outside the window of blow temperatures and where the faces
// differ. For an imposed field; [Oven.Run] judges its own.
func Judge(f *Field, slices []Slice, g resin.Grade) ([]string, error) {
	if len(f.S) != len(slices) {
		return nil, fmt.Errorf("oven: judge: %d slices beside a field of %d", len(slices), len(f.S))
	}
	r := &Result{Slices: slices, Field: f, Mean: f.Average(), Hottest: f.Outside, Haze: make([]float64, len(slices))}
	err := (&Oven{grade: g, setup: Default()}).judge(r)
	return r.Warnings, err
}

func (o *Oven) judge(r *Result) error {
	melt := float64(o.grade.Melting)
	cold, hot := 0, 0
	for i := range r.Slices {
		if top := math.Max(r.Hottest[i], math.Max(r.Field.Inside[i], r.Field.Outside[i])); top > melt {
			return &Refusal{What: "melts", Place: r.Slices[i].BelowLedge, Value: unit.Temperature(top), Limit: o.grade.Melting, Remedy: "lower the power of the zones there or raise the ventilation"}
		}
		if r.Field.Mean[i] < r.Field.Mean[cold] {
			cold = i
		}
		if r.Field.Mean[i] > r.Field.Mean[hot] {
			hot = i
		}
	}
	if r.Mean < o.grade.Tg {
		return &Refusal{What: "cold", Place: r.Slices[cold].BelowLedge, Value: r.Mean, Limit: o.grade.Tg, Remedy: "raise the power or the heating time: below the glass transition it tears"}
	}
	warn := func(format string, args ...any) {
		r.Warnings = append(r.Warnings, "oven: "+fmt.Sprintf(format, args...))
	}
	a := deck.Card("air")
	low, high, skin := a.Value("blow_low"), a.Value("blow_high"), a.Value("skin")
	if t := r.Field.Mean[hot]; t > high {
		warn("mean ‹%.1f °C› at ‹%.1f mm› below the ledge above ‹%.0f °C›: it flows instead of hardening", t-273.15, r.Slices[hot].BelowLedge*1e3, high-273.15)
	}
	worst := 0.0
	var runs []string // stretches that are too cold, from the tip
	from, to, open := 0.0, 0.0, false
	shut := func() {
		if open {
			runs = append(runs, fmt.Sprintf("‹%.1f to %.1f mm›", to*1e3, from*1e3))
		}
		open = false
	}
	for i, s := range r.Slices {
		if s.Part == Transition {
			break
		}
		if d := r.Field.Outside[i] - r.Field.Inside[i]; math.Abs(d) > math.Abs(worst) {
			worst, cold = d, i
		}
		if r.Field.Mean[i] >= low {
			shut()
			continue
		}
		if !open {
			from, open = s.BelowLedge, true
		}
		to = s.BelowLedge
	}
	shut()
	if runs != nil {
		warn("mean below ‹%.0f °C› at %s below the ledge: it stays thick there", low-273.15, strings.Join(runs, " and "))
	}
	if math.Abs(worst) > skin*(1+1e-9) {
		warn("outside minus inside ‹%+.1f K› at ‹%.1f mm› below the ledge, trade limit %.0f K: longer soak, more ventilation or more gaps", worst, r.Slices[cold].BelowLedge*1e3, skin)
	}
	x, at := 0.0, 0
	for i, h := range r.Haze {
		if h > x {
			x, at = h, i
		}
	}
	if x > resin.HazeRelative {
		warn("haze: %.1f %% crystallised at ‹%.1f mm› below the ledge, limit %.0f %%: the outer face was at ‹%.0f °C›; less power, more time", 100*x, r.Slices[at].BelowLedge*1e3, 100*resin.HazeRelative, r.Hottest[at]-273.15)
	}
	for i, z := range r.Zones {
		if z.Load > 1.001 {
			warn("zone %d runs at %.0f %% of its rated power: the filament burns out; raise the rated power, the coupling or the heating time", i+1, 100*z.Load)
		}
	}
	return nil
}
