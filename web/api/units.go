package api

import (
	"context"
	"errors"
	"net/http"
	"strings"

	"github.com/danielgtaylor/huma/v2"

	catalogue "costrel/figure"
	"costrel/project/design"
	"costrel/unit"
)

// InUnits is the part of a request that says in which units its answer is read.
type InUnits struct {
	Units string `json:"units,omitempty" pattern:"^(eu|us)(,[^,=]+=[^,=]+)*$" patternDescription:"eu or us, then the reader's own choices" maxLength:"2000" doc:"The reader's units: eu or us, and behind it what is wanted in another unit, us,pressure=bar,length=mm. Quantities and units are those of /api/units"`
}

type unitsOut struct {
	Body struct {
		Kinds       []unit.KindInfo   `json:"kinds"`
		Preferences []unit.Preference `json:"preferences" doc:"What the reader may choose a unit for, in the order in which it stands in the text of a system"`
		Used        []string          `json:"used" doc:"Keys of the preferences of quantities that a design or a figure has"`
	}
}

func (s *Server) units(context.Context, *struct{}) (*unitsOut, error) {
	out := &unitsOut{}
	out.Body.Kinds, out.Body.Preferences = unit.Table(), unit.Preferences()
	out.Body.Used = used(out.Body.Preferences)
	return out, nil
}

// used returns the keys of the preferences that a reader of the workbench has a use
// for: of quantities that a design or a figure has, in more than one unit. What a
// family takes along is chosen with the family; walls, vacuums and
// compliances may part from it.
func used(all []unit.Preference) []string {
	seen := map[unit.Kind]bool{unit.Wall: true, unit.Vacuum: true, unit.GasPermeance: true} // of plots alone
	for _, e := range catalogue.Entries() {
		seen[e.Kind] = true
	}
	for _, it := range design.Walk() {
		seen[it.Field.Kind] = true
	}
	family := map[unit.Kind]bool{}
	out := []string{}
	for _, p := range all {
		if len(p.Choices) < 2 || family[p.Kind] && p.Kind != unit.Wall && p.Kind != unit.Vacuum && p.Kind != unit.Compliance {
			continue
		}
		needed := false
		for k := range p.Choices[0].Shows {
			needed = needed || seen[k]
			family[k] = true
		}
		if needed {
			out = append(out, p.Key)
		}
	}
	return out
}

// system reads the units of a request; empty stands for the EU. The error answers the
// request, with every fault at its place.
func system(place, text string) (unit.System, error) {
	if text == "" {
		return unit.EU, nil
	}
	sys, err := unit.ParseSystem(text)
	if err == nil {
		return sys, nil
	}
	var details []error
	for line := range strings.Lines(err.Error()) {
		details = append(details, &huma.ErrorDetail{Message: strings.TrimSpace(line), Location: place, Value: text})
	}
	return "", huma.NewError(http.StatusUnprocessableEntity, "the units cannot be used", details...)
}

// errorText returns an answer's error with its details, for an event.
func errorText(err error) string {
	var m *huma.ErrorModel
	if !errors.As(err, &m) {
		return err.Error()
	}
	var lines []string
	for _, d := range m.Errors {
		lines = append(lines, d.Message)
	}
	return m.Detail + ": " + strings.Join(lines, "; ")
}
