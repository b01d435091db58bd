package run

import (
	"fmt"
	"math"
	"slices"

	"costrel/figure"
	"costrel/physics/shell"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// softGrowth is the growth in diameter at which a warmed pack has left its
// limits where the design sets none: common practice.
const softGrowth = 0.03

const softKey = "softening.temperature"

// softEnd is the end of the search, 79 °C.
const softEnd = unit.Temperature(273.15 + 79)

// softLimit is one limit of the warmed pack, elastic and at once, as a measure
// that rises as the wall softens.
type softLimit struct {
	key, leaves string // of the figure; what the pack does there
	method      string
	equation    string
	limit       float64
	of          func(shell.Growth) float64
	inputs      []figure.Input
	foot        [2]float64 // sag of a foot at the ends of its range over that counted; 0 for none
}

// mend says what helps a pack that leaves a limit too early.
func (l softLimit) mend() string {
	if l.key == "base.clearance" {
		return "a deeper push-up, more wall in the base or less pressure; see base.rollout"
	}
	return "more wall or less pressure; calibrate the stiffness on measured growth"
}

// softBounds are the limits of a design that a warmed pack can leave.
func softBounds(d *design.Design) []design.Limit {
	var out []design.Limit
	for _, l := range d.Limits {
		if slices.Contains([]string{"growth.diameter", "growth.height", "base.clearance", "topload.empty"}, l.Figure) {
			out = append(out, design.Limit{Figure: l.Figure, Side: l.Side, Value: l.Value})
		}
	}
	return out
}

// limitOf returns the limit that the design itself sets on a figure.
func (t *strengthTests) limitOf(key string, side quality.Side) (quality.Limit, bool) {
	limits, _ := Limits(t.d)
	i := slices.IndexFunc(limits, func(l quality.Limit) bool { return l.Figure == key && l.Side == side })
	if i < 0 {
		return quality.Limit{}, false
	}
	return limits[i], true
}

// softLimits are those of the pack under pressure: growth, and the clearance of
// the gate, by the limits of the design or by common practice.
func (t *strengthTests) softLimits() []softLimit {
	from := func(path, symbol, label string, l quality.Limit, own bool, value float64, kind unit.Kind) []figure.Input {
		in := assumed(path, symbol, label, value, kind, "CommonPractice")
		if own {
			in = figure.Input{Key: "design:limits", Symbol: symbol, Label: "Limit on " + l.Figure, Value: l.Value, Kind: kind, Origin: figure.Given}
		}
		return []figure.Input{in}
	}
	l, own := t.limitOf("growth.diameter", quality.Max)
	most := softGrowth
	if own {
		most = l.Value
	}
	all := []softLimit{{
		key: "growth.diameter", leaves: fmt.Sprintf("leaves its limit of growth, %.3g %%,", 100*most), limit: most, of: func(g shell.Growth) float64 { return g.Gauge },
		method: "The closed pack is warmed until it leaves its limit of growth, elastic and at once; growth is straight between the two last temperatures", equation: "g(T) = g_limit",
		inputs: from("handling.stability_temperature", "g_limit", "Limit of growth in diameter", l, own, most, unit.Fraction),
	}}
	if l, own := t.limitOf("growth.height", quality.Max); own {
		all = append(all, softLimit{
			key: "growth.height", leaves: "leaves its limit of growth in height, " + unit.Quote(unit.Length, l.Value, 3) + ",", limit: l.Value, of: func(g shell.Growth) float64 { return g.Height },
			method: "The closed pack is warmed until it leaves its limit of growth in height, elastic and at once; growth is straight between the two last temperatures", equation: "Δh(T) = Δh_limit",
			inputs: from("", "Δh_limit", "", l, own, l.Value, unit.Length),
		})
	}
	base := t.d.Bottle.Base
	l, own = t.limitOf("base.clearance", quality.Min)
	if base.Type == "hemisphere" || base.PushUp <= 0 || (base.Type == "petaloid" && !own) { // feet sag by factors, see base.clearance
		return all
	}
	c := softLimit{
		key: "base.clearance", leaves: "rocks: its gate is down at the standing ring", limit: base.PushUp, of: func(g shell.Growth) float64 { return base.PushUp - g.Clearance },
		method: "The closed pack is warmed until its gate has sagged down to its limit, elastic and at once; sag is straight between the two last temperatures", equation: "s(T) = c_0",
		inputs: []figure.Input{t.given("c_0", "bottle.base.push_up")},
	}
	if own {
		c.leaves, c.limit, c.equation = "leaves its limit of clearance, "+unit.Quote(unit.Length, l.Value, 3)+",", base.PushUp-l.Value, "s(T) = c_0 - c_limit"
		c.inputs = append(c.inputs, from("", "c_limit", "", l, own, l.Value, unit.Length)...)
	}
	if base.Type == "petaloid" {
		push := shell.PushUpInput{GrowInput: shell.GrowInput{Bottle: t.b}, Feet: base.Feet, Share: t.valleys()}
		sag, err := push.Sag(shell.GrowResult{})
		if err != nil {
			return all
		}
		c.of = func(g shell.Growth) float64 { return sag.Factor * g.Sag }
		c.foot = [2]float64{sag.Low / sag.Factor, sag.High / sag.Factor}
		c.inputs = append(c.inputs, assumed("bottle.base.feet", "f_foot", "Base: sag over that of the round base, in s", sag.Factor, unit.Ratio, "CommonPractice"))
	}
	return append(all, c)
}

// softTopLoad returns the temperature at which the empty bottle no longer
// carries the design's own limit on its top load, which goes with the stiffness;
// 0 for none up to the end of the search.
func (t *strengthTests) softTopLoad(load, limit float64) unit.Temperature {
	carries := func(q unit.Temperature) bool {
		soft, _, _, err := t.warm.Factors(q)
		return err == nil && load*soft/t.labSoft >= limit
	}
	lo, hi := t.warm.At[0], softEnd
	if carries(hi) {
		return 0
	}
	for range 60 {
		if mid := (lo + hi) / 2; carries(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return hi
}

// softening is the temperature at which the pack leaves the first of its limits.
func (t *strengthTests) softening() {
	if t.unfilled != "" {
		t.problem(softKey, "%s", t.unfilled)
		return
	}
	standing := unit.Temperature(0)
	least, bound := t.limitOf("topload.empty", quality.Min)
	i := slices.IndexFunc(t.figures, func(f figure.Figure) bool { return f.Key == "topload.empty" })
	if bound = bound && i >= 0; bound {
		standing = t.softTopLoad(t.figures[i].Value, least.Value)
	}
	if t.pressures == nil {
		switch {
		case !bound:
			t.problem(softKey, "the pack holds no pressure, and no limit on topload.empty is set that it could leave when it is warm: set one")
		case standing == 0:
			t.softKept(shell.SoftenResult{}, nil, searchEnd, t.figures[i], least)
		default:
			t.softStanding(standing, softEnd, t.figures[i], least)
		}
		return
	}
	if _, err := t.standing(t.d.Handling.Lab, t.labSoft); err != nil {
		t.problem(softKey, "before any warmth: %v", err)
		return
	}
	limits, reach := t.softLimits(), math.Max(1.2, stiffnessLaw(t.d).high)
	in := shell.SoftenInput{Bottle: t.b, Warmth: t.warm, GaugeZ: (t.shape.Panel[0] + t.shape.Panel[1]) / 2, Growth: 2 * mostGrowth, To: softEnd, Sealed: t.pressures.sealed}
	in.Sizing.Factor = 2 * sizing
	for _, l := range limits { // the search goes on beyond the limits, for the bands
		in.Others = append(in.Others, shell.SoftLimit{Name: l.key, Of: l.of, Most: math.Max(l.limit, l.limit*reach)})
	}
	r, err := shell.Soften(in)
	if err != nil {
		t.problem(softKey, "%v", err)
		return
	}
	end := searchEnd
	if q, ok := r.Grows(mostGrowth); ok {
		end = softReach{q, fmt.Sprintf("where it has grown by the %.0f %% to which the laws of its wall hold", 100*mostGrowth)}
	}
	at, first := r.Temperature, -1
	for k, l := range limits {
		if q, ok := r.Leaves(k, l.limit); ok && (first < 0 || q < at) {
			at, first = q, k
		}
	}
	beyond := at <= end.at && (first >= 0 || r.Limit == "no equilibrium")
	if standing > 0 && standing <= end.at && (!beyond || standing < at) {
		other := end.at // where the pack leaves another limit
		if beyond {
			other = at
		}
		t.softStanding(standing, other, t.figures[i], least)
		return
	}
	if !beyond {
		load := figure.Figure{}
		if bound {
			load = t.figures[i]
		}
		t.softKept(r, limits, end, load, least)
		return
	}
	t.softLeft(r, limits, first, at)
}

// softLeft shows the temperature at which the pack leaves the first of its limits,
// or where it finds no state for first below 0.
func (t *strengthTests) softLeft(r shell.SoftenResult, limits []softLimit, first int, at unit.Temperature) {
	warnings := append([]string{softNote}, r.Warnings...)
	bounded := at <= t.warm.At[0]
	if bounded {
		warnings = append([]string{t.atOrBelow()}, warnings...)
	}
	if at < t.d.Handling.Stability {
		warnings = append(warnings, fmt.Sprintf("below the %s of the stability test: that test reads the pack after cooling, this one warm and under its pressure", unit.Quote(unit.TemperaturePoint, float64(t.d.Handling.Stability), 3)))
	}
	if at < t.d.Handling.Stability && first >= 0 {
		warnings = append(warnings, "to be warmer: "+limits[first].mend())
	}
	if first < 0 {
		t.lost(r, append(warnings, "the pack no longer finds a state that carries its pressure there"))
		return
	}
	l := limits[first]
	there := " there"
	if bounded {
		there, l.equation = " there already", "T <= T_0"
		l.inputs = append(l.inputs, t.coldest())
	}
	f := t.show(result{
		key: softKey, value: float64(at), method: l.method, equation: l.equation, follows: influence{}, warnings: append([]string{"the pack " + l.leaves + there}, warnings...),
		inputs: append(append([]figure.Input{}, l.inputs...), t.given("f_E", "handling.modulus_factor")),
	})
	// A softer or stiffer wall leaves its limit earlier or later, as growth and sag
	// go with 1/E and 1/t.
	move := func(factor float64) float64 { return float64(r.AtOther(first, l.limit*factor) - at) }
	for _, e := range []factorRange{stiffnessLaw(t.d), t.wallRange()} {
		widen(f, figure.Effect{Path: e.path, Label: e.label, Low: move(e.low), High: move(e.high), Basis: e.basis})
	}
	if l.foot[0] > 0 {
		e := l.feet()
		e.Low, e.High = move(1/l.foot[1]), move(1/l.foot[0])
		widen(f, e)
	}
	t.searched(f)
}

// softReach is how far the search for a softening temperature looks, and why no
// farther.
type softReach struct {
	at  unit.Temperature
	why string
}

var searchEnd = softReach{softEnd, "where the search ends"}

// softKept shows that the pack keeps its limits up to the end of the search. A
// limit on that temperature which lies beyond has no answer. load is that of the
// empty bottle where it is limited.
func (t *strengthTests) softKept(r shell.SoftenResult, limits []softLimit, end softReach, load figure.Figure, least quality.Limit) {
	kept := fmt.Sprintf("%s, %s", unit.Quote(unit.TemperaturePoint, float64(end.at), 3), end.why)
	if l, open := t.beyond(softKey, float64(end.at)); open {
		t.problem(softKey, "the pack keeps its limits up to %s, and the limit is %s: test it", kept, unit.Quote(unit.TemperaturePoint, l.Value, 3))
		return
	}
	inputs := []figure.Input{assumed("handling.stability_temperature", "T_1", "Temperature where the search ends", float64(end.at), unit.TemperaturePoint, "")}
	for _, l := range limits {
		inputs = append(inputs, l.inputs...)
	}
	if load.Key != "" {
		inputs = append(inputs, topLoadLimit(least))
	}
	f := t.show(result{
		key: softKey, value: float64(end.at), method: "The pack is warmed until it leaves a limit, elastic and at once; it leaves none up to the end of the search", equation: "T >= T_1", follows: influence{},
		inputs: inputs, warnings: []string{"at or above " + kept + ": the pack keeps its limits up to there", softNote},
	})
	// What is not known makes it leave a limit earlier.
	for _, q := range []factorRange{stiffnessLaw(t.d), t.wallRange()} {
		e := figure.Effect{Path: q.path, Label: q.label, Basis: q.basis}
		for k, l := range limits {
			if left, ok := r.Leaves(k, l.limit*q.low); ok {
				e.Low = math.Min(e.Low, float64(left-end.at))
			}
		}
		if e.Low < 0 {
			widen(f, e)
		}
	}
	for k, l := range limits {
		if l.foot[0] == 0 {
			continue
		}
		if left, ok := r.Leaves(k, l.limit/l.foot[1]); ok && left < end.at {
			e := l.feet()
			e.Low = float64(left - end.at)
			widen(f, e)
		}
	}
	if load.Key != "" {
		if q := t.softTopLoad(load.Lo, least.Value); q > 0 && q < end.at {
			widen(f, figure.Effect{Path: "handling.topload_factor", Label: "Top load of the empty bottle", Low: float64(q - end.at), Basis: "its own band"})
		}
	}
	t.searchedBelow(f)
}

// feet is what is not known of the sag of feet, without its size.
func (l softLimit) feet() figure.Effect {
	return figure.Effect{Path: "bottle.base.feet", Label: "Feet between dome and straps", Basis: fmt.Sprintf("%.2f .. %.2f times the sag", l.foot[0], l.foot[1])}
}

// topLoadLimit is the design's limit on the top load of the empty bottle.
func topLoadLimit(l quality.Limit) figure.Input {
	return figure.Input{Key: "design:limits", Symbol: "F_limit", Label: "Limit on " + l.Figure, Value: l.Value, Kind: unit.Force, Origin: figure.Given}
}

// beyond returns a limit of the design that a figure known to be "at or above" a
// value cannot be held against.
func (t *strengthTests) beyond(key string, value float64) (quality.Limit, bool) {
	if l, own := t.limitOf(key, quality.Min); own && l.Value > value {
		return l, true
	}
	l, own := t.limitOf(key, quality.Max)
	return l, own && l.Value >= value
}

// softNote is the warning of every softening temperature.
const softNote = quality.EstimatePrefix + ": stiffness by temperature is from memory, and a wall that shrinks back is not part of it"

// atOrBelow says that a limit is missed where the search begins: the temperature
// of the figure is then an upper bound, that of no warmth.
func (t *strengthTests) atOrBelow() string {
	return fmt.Sprintf("at or below %s, where the table of stiffness and the search begin: a limit is missed there already, without any warmth", unit.Quote(unit.TemperaturePoint, float64(t.warm.At[0]), 3))
}

// coldest is the temperature where the search begins, as an input.
func (t *strengthTests) coldest() figure.Input {
	return assumed("handling.lab_temperature", "T_0", "Temperature where the search begins", float64(t.warm.At[0]), unit.TemperaturePoint, "")
}

// softStanding shows the temperature at which the empty bottle carries its limit
// no more. Its band ends where the pack leaves another limit.
func (t *strengthTests) softStanding(at, other unit.Temperature, load figure.Figure, limit quality.Limit) {
	q := result{
		key: softKey, value: float64(at), method: "The top load of the empty bottle goes with the stiffness of its wall by temperature", equation: "F(T) = F_limit", follows: influence{},
		inputs: []figure.Input{
			t.input("F_23", "topload.empty"),
			topLoadLimit(limit),
		},
		warnings: []string{"the empty bottle leaves its limit of top load, " + unit.Quote(unit.Force, limit.Value, 3) + ", there", softNote},
	}
	if soft, _, _, err := t.warm.Factors(t.warm.At[0]); err == nil && load.Value*soft/t.labSoft < limit.Value {
		q.value, q.equation, q.inputs = float64(t.warm.At[0]), "T <= T_0", append(q.inputs, t.coldest())
		q.warnings = []string{"the empty bottle misses its limit of top load, " + unit.Quote(unit.Force, limit.Value, 3) + ", at laboratory temperature already", t.atOrBelow(), softNote}
	}
	f := t.show(q)
	end := func(v float64) float64 {
		q := t.softTopLoad(v, limit.Value)
		if q == 0 {
			q = softEnd
		}
		return float64(min(q, other) - at)
	}
	widen(f, figure.Effect{Path: "handling.topload_factor", Label: "Top load of the empty bottle", Low: end(load.Lo), High: end(load.Hi), Basis: "its own band"})
	t.searched(f)
}

// searched ends the band of a softening temperature where the search does, and
// says so: what lies beyond was not looked for.
func (t *strengthTests) searched(f *figure.Figure) {
	if last := float64(softEnd); f.Hi > last-searchNear {
		f.Hi = math.Max(f.Value, math.Min(f.Hi, last))
		searchNote(f, "upper", "the end", last)
	}
	t.searchedBelow(f)
}

// searchedBelow does the same where the search begins.
func (t *strengthTests) searchedBelow(f *figure.Figure) {
	first := float64(t.warm.At[0])
	for _, e := range f.Effects {
		if v := f.Value + min(e.Low, e.High); f.Value > first+searchNear && v > first-searchNear && v < first+searchNear {
			f.Lo = math.Min(f.Value, math.Max(f.Lo, first))
			searchNote(f, "lower", "the beginning", first)
			break
		}
	}
}

// searchNear is how near to an end of the search a temperature counts as it [K].
const searchNear = 0.01

func searchNote(f *figure.Figure, side, place string, at float64) {
	f.Origin.Warnings = append(f.Origin.Warnings, fmt.Sprintf("the %s end of the band, %s, is %s of the search: what lies beyond is not known", side, unit.Quote(unit.TemperaturePoint, at, 3), place))
}

// lost shows the temperature at which the wall finds no state that carries the
// pressure: what it carries goes with its stiffness by temperature, E and t².
func (t *strengthTests) lost(r shell.SoftenResult, warnings []string) {
	pressure := func(q unit.Temperature) float64 {
		of, err := t.pressures.sealed(q)
		if err != nil {
			return math.Inf(1)
		}
		p, _ := of(r.Gain)
		return p
	}
	carried := func(q unit.Temperature) float64 { // pressure over stiffness
		soft, _, _, err := t.warm.Factors(q)
		if err != nil {
			return math.Inf(1)
		}
		return pressure(q) / soft
	}
	most := carried(r.Temperature)
	soft, _, _, _ := t.warm.Factors(r.Temperature)
	f := t.show(result{
		key: softKey, value: float64(r.Temperature), method: "The closed pack is warmed until its wall finds no state that carries the pressure: the base rolls out or the wall flows on", equation: "p(T) = f(T) p_most, f(T) = f_s", follows: influence{},
		inputs: []figure.Input{
			computed("drink.carbonation", "p", "Pack: pressure there", pressure(r.Temperature), unit.PressureGauge),
			computed("handling.modulus_factor", "f_s", "Stiffness there over that at ‹23 °C›", soft, unit.Ratio),
		},
		warnings: warnings,
	})
	for _, e := range []struct {
		factorRange
		power float64
	}{{stiffnessLaw(t.d), 1}, {t.wallRange(), 2}} {
		at := func(factor float64) float64 {
			want := most * math.Pow(factor, e.power)
			lo, hi := unit.Celsius(0), softEnd
			for range 20 {
				if mid := (lo + hi) / 2; carried(mid) < want {
					lo = mid
				} else {
					hi = mid
				}
			}
			return float64(lo - r.Temperature)
		}
		widen(f, figure.Effect{Path: e.path, Label: e.label, Low: at(e.low), High: at(e.high), Basis: e.basis})
	}
	t.searched(f)
}
