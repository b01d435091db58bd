package run

import (
	"math"

	"costrel/physics/hotfill"
	"costrel/unit"
)

var (
	vacuumAxis = Axis{Label: "vacuum", Kind: unit.Vacuum}
	millilitre = Axis{Label: "volume", Kind: unit.Volume, Unit: "mL"}
)

// plots draws the budget of the panels and the vacuum over what the designer
// can turn: compliance, fill temperature, headspace.
func (h *hotCase) plots(st hotfill.State) {
	if !h.work.drawn {
		return
	}
	h.plotCompliance()
	h.plotFill()
	h.plotHeadspace(st)
	h.plotBudget(st)
}

func (h *hotCase) plotCompliance() {
	design := h.d.HotFill.Compliance
	x := span(0, math.Max(2.5*design, 1e-9), 31)
	x, states := h.sweep(x, func(k float64) ([]hotfill.State, error) {
		p := h.pack
		p.Panel = hotfill.Panel{Compliance: k, Outward: p.Panel.Outward}
		s, err := hotfill.Cool(p, h.store)
		return []hotfill.State{s}, err
	})
	given := make([]float64, len(states))
	for i, s := range states {
		given[i] = s.Budget.Panels
	}
	compliance, marks := Axis{Label: "panel compliance", Kind: unit.Compliance, Unit: "mL/kPa"}, []Mark{{At: design, Label: "design"}}
	h.plot(Plot{
		Key: "hotfill.vacuum", Title: "Vacuum after cooling", X: compliance, Y: vacuumAxis,
		Series: []Series{{Name: "vacuum", X: x, Y: vacua(states)}}, Marks: marks,
	})
	h.plot(Plot{
		Key: "hotfill.panels", Title: "Volume the panels give", X: compliance, Y: millilitre,
		Series: []Series{{Name: "panels", X: x, Y: given}}, Marks: marks,
	})
}

func (h *hotCase) plotFill() {
	design := h.pack.Temperature
	lo, hi := max(min(unit.Celsius(78), design-5), hotfill.LowT+1), min(max(unit.Celsius(96), design+5), hotfill.HighT-1)
	x, states := h.sweep(span(float64(lo), float64(hi), 37), func(t float64) ([]hotfill.State, error) {
		return hotfill.SweepFill(h.pack, h.store, []unit.Temperature{unit.Temperature(t)}, nil)
	})
	h.plot(Plot{
		Key: "hotfill.sweep.fill", Title: "Vacuum over fill temperature", X: Axis{Label: "fill temperature", Kind: unit.TemperaturePoint}, Y: vacuumAxis,
		Series: []Series{{Name: "vacuum", X: x, Y: vacua(states)}}, Marks: []Mark{{At: float64(design), Label: "design"}},
		Note: "Headspace gas at its distance to the drink, shrinkage as in the design: a bottle filled hotter shrinks more.",
	})
}

func (h *hotCase) plotHeadspace(st hotfill.State) {
	design := st.HotHeadspace
	x, states := h.sweep(span(math.Min(0.2*design, 2e-3*h.pack.Fill), math.Max(2.5*design, 0.08*h.pack.Fill), 41), func(v float64) ([]hotfill.State, error) {
		return hotfill.SweepHeadspace(h.pack, h.store, []float64{v})
	})
	h.plot(Plot{
		Key: "hotfill.sweep.headspace", Title: "Vacuum over headspace at closing", X: Axis{Label: "headspace at closing", Kind: unit.Volume, Unit: "mL"}, Y: vacuumAxis,
		Series: []Series{{Name: "vacuum", X: x, Y: vacua(states)}}, Marks: []Mark{{At: design, Label: "design"}},
		Note: "The fill stays and the bottle grows with the headspace; panels as in the design.",
	})
}

// plotBudget draws over the vacuum what cooling asks for and what the bottle
// gives, each cause on top of the one before. They meet at the vacuum of the
// pack.
func (h *hotCase) plotBudget(st hotfill.State) {
	top := 0.95 * (float64(st.Pressure) + st.Vacuum - st.Vapour)
	vacuum := span(0, math.Min(math.Max(2*st.Vacuum, 10e3), top), 41)
	bare := h.pack
	bare.Nitrogen = 0
	n := len(vacuum)
	liquid, need, air, shrink, give := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	for i, v := range vacuum {
		var errN, errA error
		need[i], errN = hotfill.WallNeed(h.pack, h.store, v)
		air[i], errA = hotfill.WallNeed(bare, h.store, v)
		if errN != nil || errA != nil {
			return
		}
		liquid[i], shrink[i] = st.Budget.Liquid, st.Budget.Shrinkage
		give[i] = st.Budget.Shrinkage + h.pack.Panel.Volume(v)
	}
	series := []Series{{Name: "needed: drink", X: vacuum, Y: liquid}, {Name: "needed: drink and headspace", X: vacuum, Y: air}}
	if h.pack.Nitrogen > 0 {
		series = append(series, Series{Name: "needed: the same less the nitrogen dose", X: vacuum, Y: need})
	}
	series = append(series, Series{Name: "given: shrinkage", X: vacuum, Y: shrink, Dashed: true}, Series{Name: "given: shrinkage and panels", X: vacuum, Y: give, Dashed: true})
	h.plot(Plot{
		Key: "hotfill.budget", Title: "Panel budget", X: vacuumAxis, Y: millilitre, Series: series, Marks: []Mark{{At: st.Vacuum, Label: "vacuum"}},
		Note: "Each line stands on the one before. The pack comes to rest where what is given meets what is needed; nothing dissolves.",
	})
}

// sweep returns the points of x that the model answers for, without a gap,
// and their packs.
func (h *hotCase) sweep(x []float64, at func(x float64) ([]hotfill.State, error)) (kept []float64, states []hotfill.State) {
	for _, v := range x {
		s, err := at(v)
		switch {
		case err == nil:
			kept, states = append(kept, v), append(states, s...)
		case len(kept) > 0:
			return kept, states
		}
	}
	return kept, states
}

func vacua(states []hotfill.State) []float64 {
	out := make([]float64, len(states))
	for i, s := range states {
		out[i] = s.Vacuum
	}
	return out
}
