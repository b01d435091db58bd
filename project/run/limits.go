package run

import (
	"fmt"
	"slices"

	"costrel/figure"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// Limits returns the limits of a design in SI. A limit on an unknown figure,
// or with a value of the wrong kind, is a fault.
func Limits(d *design.Design) ([]quality.Limit, design.Faults) {
	var out []quality.Limit
	var faults design.Faults
	for i, l := range d.Limits {
		path := fmt.Sprintf("limits[%d]", i)
		e, ok := figure.Find(l.Figure)
		if !ok {
			faults = append(faults, design.Fault{Path: path + ".figure", Text: l.Figure, Message: fmt.Sprintf("no figure has the key %q", l.Figure)})
			continue
		}
		v, err := unit.Parse(e.Kind, l.Value)
		if err != nil {
			faults = append(faults, design.Fault{Path: path + ".value", Text: l.Value, Message: err.Error()})
			continue
		}
		out = append(out, quality.Limit{
			Figure: l.Figure, Side: quality.Side(l.Side), Value: v.SI, Kind: e.Kind, Unit: v.Symbol,
			Owner: l.Owner, Source: l.Source, Note: l.Note,
		})
	}
	return out, faults
}

// dosedLimit holds the pressure of a hot-filled pack right after a dose of
// nitrogen, where its design sets no limit on it: an example, from common
// practice, that a dose is to lift the vacuum and not to make a pressure pack.
var dosedLimit = quality.Limit{
	Figure: "hotfill.pressure.closing", Side: quality.Max, Value: 2e5, Kind: unit.PressureGauge, Owner: "costrel", Source: "example",
	Note: "a dose lifts the vacuum; a hot wall is soft, set the limit of your bottle",
}

// stackLimit holds what the lowest pack carries against the design's own stack.
func stackLimit(load figure.Figure) quality.Limit {
	return quality.Limit{
		Figure: "stack.capacity", Side: quality.Min, Value: load.Value, Kind: unit.Force, Owner: "costrel",
		Note: "the load of the design's own stack on its lowest pack, stack.load: layers, pallets high and stack factor of the plant",
	}
}

// implied returns the limits that hold though nobody wrote them down: a pack
// does not burst under the highest pressure it comes to itself, it carries its
// own stack, and a dose into a hot-filled pack stays small.
func implied(given []quality.Limit, figures []figure.Figure) []quality.Limit {
	set := func(key string, side quality.Side) bool {
		return slices.ContainsFunc(given, func(l quality.Limit) bool { return l.Figure == key && l.Side == side })
	}
	var out []quality.Limit
	var own, stack figure.Figure
	burst, carries := false, false
	for _, f := range figures {
		switch f.Key {
		case dosedLimit.Figure:
			if !set(f.Key, quality.Max) {
				out = append(out, dosedLimit)
			}
			fallthrough
		case "pack.pressure.fill", "pack.pressure.store", "pack.pressure.hot", "shelf.pressure.max", "hotfill.pressure":
			if f.Value > own.Value {
				own = f
			}
		case "burst.pressure":
			burst = true
		case "stack.capacity":
			carries = true
		case "stack.load":
			stack = f
		}
	}
	if carries && stack.Value > 0 && !slices.ContainsFunc(given, func(l quality.Limit) bool {
		return l.Figure == "stack.capacity" && l.Side == quality.Min && l.Value >= stack.Value
	}) {
		out = append(out, stackLimit(stack))
	}
	beyond := slices.ContainsFunc(given, func(l quality.Limit) bool {
		return l.Figure == "burst.pressure" && l.Side == quality.Min && l.Value >= own.Value
	})
	if burst && own.Value > 0 && !beyond {
		out = append(out, quality.Limit{
			Figure: "burst.pressure", Side: quality.Min, Value: own.Value, Kind: unit.PressureGauge, Owner: "costrel",
			Note: "the pack comes to this pressure itself: " + own.Label,
		})
	}
	return out
}
