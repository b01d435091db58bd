package run

import (
	"fmt"
	"strings"

	"costrel/project/design"
	"costrel/unit"
)

// Sheet is a block of the process sheet: rows of label and value.
type Sheet struct {
	Title string     `json:"title"`
	Rows  []SheetRow `json:"rows"`
}

// SheetRow is a value of the process sheet: SI with its kind and the unit to
// show it in, or a text.
type SheetRow struct {
	Label string    `json:"label"`
	Kind  unit.Kind `json:"kind,omitempty"`
	Unit  string    `json:"unit,omitempty"` // empty: the preferred one of the kind
	Value float64   `json:"value"`
	Text  string    `json:"text,omitempty"` // instead of a value
}

// ProcessSheet returns what a stage prints beside its figures: of the blow the
// process card, the section weights and the balances, of the reheat the oven and
// its heat, of the injection the moulding and the rules of the preform. Nothing
// for other stages; what failed is left out.
func (r *Result) ProcessSheet(stage string) []Sheet { return r.sheets[stage] }

func processSheets(d *design.Design, done map[string]*entry) map[string][]Sheet {
	out := map[string][]Sheet{}
	if e := done["inject"]; e != nil && e.err == nil {
		out["inject"] = injectSheets(d, done)
	}
	if e := done["reheat"]; e != nil {
		out["reheat"] = reheatSheets(d, done)
	}
	if e := done["blow"]; e != nil {
		out["blow"] = blowSheets(d, done)
	}
	return out
}

func blowSheets(d *design.Design, done map[string]*entry) []Sheet {
	out := []Sheet{processCard(d)}
	if done["blow"].err != nil {
		return out
	}
	b := done["blow"].out.(*Blown)
	if w := done["section"]; w != nil && w.err == nil && done["wall"].out.(*Wall).Blown != nil {
		s := Sheet{Title: "Section weights, shoulder with finish"}
		for _, z := range w.out.(*Sections).Zones {
			s.Rows = append(s.Rows, SheetRow{Label: z.Name, Kind: unit.Mass, Unit: "g", Value: z.Grams * 1e-3})
		}
		out = append(out, s)
	}
	return append(out, courseSheet(b), balanceSheet(b))
}

// cardUnits are the units of a process card where the preferred ones are not.
var cardUnits = map[unit.Kind]string{unit.Area: "mm²", unit.Speed: "m/s"}

// card adds rows of the design to a sheet.
func (s *Sheet) card(d *design.Design, paths ...string) {
	for _, path := range paths {
		it, ok := design.Lookup(path)
		if v, _, is := d.Number(path); ok && is {
			s.Rows = append(s.Rows, SheetRow{Label: it.Field.Label, Kind: it.Field.Kind, Unit: cardUnits[it.Field.Kind], Value: v})
		}
	}
}

// ovenCard adds what the process card says of the oven.
func (s *Sheet) ovenCard(d *design.Design) {
	var zones []string
	for _, z := range d.Oven.Zones {
		zones = append(zones, fmt.Sprintf("%.0f", z.Power*100))
	}
	s.card(d, "oven.overall", "oven.ventilation", "oven.mean_temperature")
	s.Rows = append(s.Rows, SheetRow{Label: "Temperatures from", Text: d.Oven.Lamps}, SheetRow{Label: "Zones, neck to tip, %", Text: strings.Join(zones, " / ")})
	if d.Oven.Lamps == "card" {
		s.card(d, "oven.inside_temperature", "oven.outside_temperature", "oven.tilt", "oven.bow", "oven.skew")
	} else {
		s.card(d, "oven.heat_time", "oven.soak_time")
	}
}

func processCard(d *design.Design) Sheet {
	s := Sheet{Title: "Process card"}
	s.card(d, "blow.stations", "blow.rate")
	s.ovenCard(d)
	s.card(
		d,
		"blow.rod_speed", "blow.rod_diameter", "blow.rod_gap", "blow.pre_blow", "blow.pre_start", "blow.pre_orifice", "blow.high_blow", "blow.high_start", "blow.high_delay",
		"blow.high_orifice", "blow.high_time", "blow.exhaust_time", "blow.body_temperature", "blow.base_temperature", "blow.contact", "blow.friction", "blow.dead_volume", "blow.air_recovery",
	)
	s.Rows = append(s.Rows, SheetRow{Label: "Rod tip", Text: d.Blow.RodTip}, SheetRow{Label: "Hot law", Text: d.Blow.Law})
	return s
}

// courseSheet is what happens when.
func courseSheet(b *Blown) Sheet {
	r := b.Result
	s := Sheet{Title: "Course of the blow"}
	add := func(label string, kind unit.Kind, u string, v float64) {
		s.Rows = append(s.Rows, SheetRow{Label: label, Kind: kind, Unit: u, Value: v})
	}
	var share, bubble float64
	for _, m := range r.History {
		if m.Time <= r.RodEnd+1e-9 {
			share = m.Volume / r.Volume
		}
	}
	bubble = r.BubbleAt
	add("rod stands after", unit.Time, "ms", r.RodEnd)
	add("by then blown, of the volume", unit.Fraction, "%", share)
	add("by then the bubble reaches, of the way to the gate", unit.Fraction, "%", bubble)
	add("peak of the pre-blow", unit.PressureGauge, "", r.PeakPre)
	add("at", unit.Time, "ms", r.PeakPreAt)
	if r.Filled {
		add("filled after", unit.Time, "ms", r.FillTime)
		add("after the high stage opened", unit.Time, "ms", r.FillTime-r.HighAt)
	} else {
		s.Rows = append(s.Rows, SheetRow{Label: "filled", Text: "no"})
	}
	if n := len(r.Order); n > 0 {
		var at []string
		for i := range 5 {
			t := r.Order[i*(n-1)/4]
			at = append(at, unit.Quote(unit.Length, t.Z, 3)+fmt.Sprintf(" at %.0f ms", t.Time*1e3))
		}
		s.Rows = append(s.Rows, SheetRow{Label: "contact, depth below the ledge", Text: strings.Join(at, ", ")})
	}
	return s
}

func balanceSheet(b *Blown) Sheet {
	q := b.Result.Balance
	s := Sheet{Title: "Balances"}
	share := func(label string, v float64) {
		s.Rows = append(s.Rows, SheetRow{Label: label, Text: fmt.Sprintf("%.1e", v)})
	}
	heat := func(label string, v float64) {
		s.Rows = append(s.Rows, SheetRow{Label: label, Kind: unit.Energy, Unit: "J", Value: v})
	}
	share("mass of the wall, relative error", q.MassError)
	share("volume of the layers, worst relative error", q.VolumeError)
	share("gas law, worst relative error", q.AirError)
	share("air entered against air inside, relative error", q.AirMassError)
	s.Rows = append(s.Rows, SheetRow{Label: "air entered up to the exhaust", Kind: unit.Mass, Unit: "g", Value: q.AirUsed})
	heat("heat of the wall over "+unit.Quote(unit.TemperaturePoint, 342.15, 3)+", at the start", q.HeatStart)
	heat("work of stretching", q.HeatWork)
	heat("crystals", q.HeatCrystal)
	heat("to the mould", -q.HeatToMould)
	heat("to the air inside", -q.HeatToAir)
	heat("to the air outside", -q.HeatToOutside)
	heat("to the rod", -q.HeatToRod)
	heat("heat of the wall at ejection", q.HeatEnd)
	share("heat, relative error", q.HeatError)
	return s
}
