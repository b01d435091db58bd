package run

import (
	"fmt"

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
