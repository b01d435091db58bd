package run

import (
	"math"
	"runtime"
	"slices"

	"costrel/num/sample"
	"costrel/physics/hotfill"
	"costrel/unit"
)

// coolUncertainties are those of the cooling and of the reading of the vacuum,
// as wide as the spreads of the preview.
func coolUncertainties() []hotUncertain {
	return []hotUncertain{
		{"end", "Hot fill: temperature of reading", "± ‹1 K›, chosen for this project", func(h *hotCase, z float64) { h.store.Temperature += unit.Temperature(z / two95) }},
		{"record", "Hot fill: temperatures of the record", "± ‹0.5 K›, common practice", func(h *hotCase, z float64) {
			h.heat.record = slices.Clone(h.heat.record)
			for i := range h.heat.record {
				h.heat.record[i].Temperature += unit.Temperature(0.5 * z / two95)
			}
		}},
		{"hold", "Hot fill: hold", "± 20 %, chosen for this project", func(h *hotCase, z float64) { h.heat.hold *= math.Max(0, 1+0.2*z/two95) }},
		{"cooling", "Hot fill: time constant of the cooling", "± 30 %, chosen for this project", func(h *hotCase, z float64) { h.heat.cooling *= math.Max(0.1, 1+0.3*z/two95) }},
	}
}

// values works out every figure of the hot-filled pack; one that it has not is
// left out.
func (h *hotCase) values() map[string]float64 {
	out := map[string]float64{}
	if st, err := hotfill.Cool(h.pack, h.store); err == nil {
		b := st.Budget
		out["hotfill.contraction"], out["hotfill.vacuum"], out["hotfill.panel.need"] = st.Contraction, st.Vacuum, b.Panels
		out["hotfill.budget.drink"], out["hotfill.budget.gas"], out["hotfill.budget.nitrogen"], out["hotfill.budget.shrinkage"] = b.Liquid, b.Gas+b.Nitrogen, b.Nitrogen, b.Shrinkage
		if st.Vacuum < 0 {
			out["hotfill.pressure"] = -st.Vacuum
		}
		out["hotfill.pressure.closing"] = float64(st.HotGauge)
	}
	if st, err := hotfill.Settle(h.pack, h.store, h.air()); err == nil {
		out["hotfill.vacuum.settled"], out["hotfill.panel.need.settled"] = st.Vacuum, st.Budget.Panels
	}
	heat := h.heat
	heat.fill, heat.end = h.pack.Temperature, h.store.Temperature
	for key, l := range h.pasteurScales() {
		if v, err := heat.lethal(l); err == nil {
			out[key] = v
		}
	}
	return out
}

// sampled gives the figures of a full check bands of their own: all uncertain
// numbers of the closed pack and of its cooling drawn together, quasi-randomly,
// and ranked by what they cause.
func (h *hotCase) sampled() {
	list := append(hotUncertainties(), coolUncertainties()...)
	z, err := sample.Normal(shelfSamples, len(list), shelfSeed)
	if err != nil {
		h.problem("hotfill", "no sampled band: %v", err)
		return
	}
	var keys []string
	here := h.values()
	for _, f := range h.figures {
		if _, ok := here[f.Key]; ok {
			keys = append(keys, f.Key)
		}
	}
	out, err := sample.Evaluate(z, runtime.GOMAXPROCS(0), func(z []float64) ([]float64, error) {
		m := *h
		for i, u := range list {
			u.move(&m, z[i])
		}
		v := m.values()
		row := make([]float64, len(keys))
		for i, k := range keys {
			x, ok := v[k]
			if !ok {
				x = math.NaN()
			}
			row[i] = x
		}
		return row, nil
	})
	if err != nil {
		h.problem("hotfill", "no sampled band: %v", err)
		return
	}
	for i, k := range keys {
		for j := range h.figures {
			if f := &h.figures[j]; f.Key == k {
				bandOf(f, out, i, func(n int) (string, string, string) { return sampledPaths[list[n].key], list[n].label, list[n].basis })
			}
		}
	}
}
