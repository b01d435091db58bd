package run

import (
	"fmt"
	"math"

	"costrel/physics/climate"
	"costrel/project/design"
	"costrel/quality"
	"costrel/unit"
)

// Activation energies by which the days of a lane are averaged [J/mol]: the
// loss of carbonation with the pressure that drives it, and the oxygen that a
// still or hot-filled pack takes up. Checked against followed days
// (physics/permeation, TestCalmedDays); that of oxygen BrewingScience2011.
const (
	carbonationEnergy = 43e3
	oxygenEnergy      = 33e3
)

// afternoon is the warmest hour of a day, from midnight, at which every
// stretch begins: chosen for this project.
const afternoon = 15 * 3600.0

func duration(l climate.Lane) float64 {
	sum := 0.0
	for _, s := range l.Segments {
		sum += s.Duration
	}
	return sum
}

// laneOf returns the way of the pack: the rows of the design, a named lane, or
// the store all along and half as long again, so that a loss limit beyond the
// shelf life is found. Days are averaged unless the design follows them.
func laneOf(d *design.Design) (climate.Lane, error) {
	l, err := everyDay(d)
	if err != nil || d.Climate.Days == "followed" {
		return l, err
	}
	energy := oxygenEnergy
	if carbonated(d) {
		energy = carbonationEnergy
	}
	return l.Calm(energy)
}

// everyDay is the lane with its days.
func everyDay(d *design.Design) (climate.Lane, error) {
	end := d.Brief.ShelfLife
	switch {
	case len(d.Climate.Lane) > 0:
		return writtenLane(d)
	case d.Climate.Named == "store":
		return storeAndHot(d, 2*math.Max(end, 2*day)), nil
	}
	l, err := climate.Named(d.Climate.Named)
	if err != nil {
		return l, fmt.Errorf("climate.named_lane: %w", err)
	}
	level := false
	for i := range l.Segments {
		s := &l.Segments[i]
		s.Name = l.Name
		level = level || s.Altitude != 0
		if s.Season != (climate.Cycle{}) {
			s.Season.Peak = midsummer(d, s.Start)
		}
	}
	for i := range l.Segments {
		if !level {
			l.Segments[i].Altitude = d.Climate.AltitudeSale
		}
	}
	// The last stretch goes on as long as it is looked at.
	if short := 2*math.Max(end, 2*day) - duration(l); short > 0 {
		l.Segments[len(l.Segments)-1].Duration += short
	}
	return l, l.Validate()
}

// rowsOf writes a named lane as rows that a design can hold: each with the
// humidity by which a day of it dries the pack.
func rowsOf(d *design.Design) []design.LaneRow {
	l, err := everyDay(d)
	if err != nil {
		return nil
	}
	calm, err := l.Calm(carbonationEnergy)
	if err != nil {
		return nil
	}
	var out []design.LaneRow
	for i, s := range l.Segments {
		humidity, altitude := calm.Segments[i].Humidity, s.Altitude
		out = append(out, design.LaneRow{
			Place: s.Name, Duration: s.Duration, Temperature: s.Temperature, Swing: s.Daily.Temperature, Season: s.Season.Temperature, Humidity: &humidity, Altitude: &altitude,
		})
	}
	return out
}

// midsummer is the time of the warmest day from the start of a stretch [s].
func midsummer(d *design.Design, start float64) float64 {
	return climate.Year/2 - d.Climate.SeasonStart - start
}

// writtenLane is the lane of the rows of the design.
func writtenLane(d *design.Design) (climate.Lane, error) {
	l := climate.Lane{Name: "lane of the design"}
	at := 0.0
	for i, r := range d.Climate.Lane {
		s := climate.Segment{
			Name: r.Place, Start: at, Duration: r.Duration, Temperature: r.Temperature, Humidity: d.Climate.Humidity, Altitude: d.Climate.AltitudeSale,
			Daily: climate.Cycle{Temperature: r.Swing, Peak: afternoon},
		}
		if s.Name == "" {
			s.Name = fmt.Sprintf("stretch %d", i+1)
		}
		if r.Humidity != nil {
			s.Humidity = *r.Humidity
		}
		if r.Altitude != nil {
			s.Altitude = *r.Altitude
		}
		if r.Swing == 0 {
			s.Daily = climate.Cycle{}
		}
		if r.Season > 0 {
			s.Season = climate.Cycle{Temperature: r.Season, Peak: midsummer(d, at)}
		}
		l.Segments = append(l.Segments, s)
		at += r.Duration
	}
	end := d.Brief.ShelfLife
	if short := end - at; short > 0 && short < 1e-9*end && len(l.Segments) > 0 {
		l.Segments[len(l.Segments)-1].Duration += short // rounding of the sum
		at = end
	}
	if at < end {
		return climate.Lane{}, fmt.Errorf("shelf: the lane lasts %s, the shelf life %s; add a stretch to climate.lane", unit.Format(unit.Time, at, "weeks", 3), unit.Format(unit.Time, end, "weeks", 3))
	}
	return l, l.Validate()
}

// storeAndHot is the lane of a design that writes and names none: store, the
// hot stretch after a week, store again.
func storeAndHot(d *design.Design, duration float64) climate.Lane {
	c := d.Climate
	seg := func(name string, start, duration float64, t unit.Temperature) climate.Segment {
		return climate.Segment{Name: name, Start: start, Duration: duration, Temperature: t, Humidity: c.Humidity, Altitude: c.AltitudeSale}
	}
	first, hot := hotStart, math.Min(c.HotTime, duration/2)
	l := climate.Lane{Name: "store with a hot stretch"}
	if hot <= 0 || c.Hot <= c.Store || duration < first+hot+day {
		l.Segments = []climate.Segment{seg("store", 0, duration, c.Store)}
		return l
	}
	l.Segments = []climate.Segment{
		seg("store", 0, first, c.Store), seg("hot lane", first, hot, c.Hot), seg("store again", first+hot, duration-first-hot, c.Store),
	}
	return l
}

// hottest returns the highest temperature a filled pack meets, day and season
// included, and where in the design it stands: a safety figure looks at the
// whole lane.
func hottest(d *design.Design) (unit.Temperature, string) {
	t, path := d.Climate.Hot, "climate.hot"
	for _, r := range d.Climate.Lane {
		if q := r.Temperature.Add(r.Swing); r.Season == 0 && q > t {
			t, path = q, "climate.lane"
		}
	}
	l, err := everyDay(d)
	if err == nil {
		l, err = l.Calm(carbonationEnergy) // tells the warm hours as well, and quicker
	}
	var c climate.Course
	if err == nil {
		c, err = l.Course()
	}
	if err != nil { // the shelf stage says why; the rows still tell the hottest
		for _, r := range d.Climate.Lane {
			if q := r.Temperature.Add(r.Swing).Add(r.Season); q > t {
				t, path = q, "climate.lane"
			}
		}
		return t, path
	}
	if q := c.Warmest().Temperature; q > t {
		if path = "climate.lane"; len(d.Climate.Lane) == 0 {
			path = "climate.named_lane"
		}
		t = q
	}
	return t, path
}

// laneNotes says what a lane that is named and not written rests on, and what
// averaged days leave out.
func laneNotes(d *design.Design, l climate.Lane) []string {
	var out []string
	if len(d.Climate.Lane) == 0 && d.Climate.Named != "store" {
		out = append(out, fmt.Sprintf("climate.named_lane: %s (%s) is an example chosen for this project, not a record of a route; write climate.lane with your own temperatures", d.Climate.Named, l.Name))
		if up := l.Segments[0].Altitude; math.Abs(up-d.Climate.AltitudeFill) > 100 {
			out = append(out, fmt.Sprintf("the lane begins at %s, climate.altitude_fill is %s: the air closed in is that of the filling site", unit.Quote(unit.Length, up, 4, "m", "ft"), unit.Quote(unit.Length, d.Climate.AltitudeFill, 4, "m", "ft")))
		}
	}
	if w := hotDropped(d); w != "" {
		out = append(out, w)
	}
	swing, calmed := unit.TemperatureDiff(0), false
	for _, s := range l.Segments {
		swing, calmed = max(swing, s.Calmed.Temperature), calmed || s.Calmed != (climate.Cycle{})
	}
	if calmed {
		out = append(out, "the days of the lane are averaged: each stretch stands at the mean kinetic temperature of its day, and the warmest hour still sets the highest pressure; climate.days: followed takes every day and some 15 times as long")
	}
	if swing > mildSwing {
		out = append(out, fmt.Sprintf("%s: the days of the lane swing by %s to either side of their mean, and averaging them holds up to %s: at 25 K the loss of a year reads 0.8 points high, the growth of the first day a tenth low; write climate.days: followed", quality.EstimatePrefix, unit.Quote(unit.TemperatureChange, float64(swing), 3), unit.Quote(unit.TemperatureChange, mildSwing, 3)))
	}
	return out
}

// mildSwing is the daily swing up to which averaging costs less than 0.15 points
// of the loss of a year [K]: computed for a soda at 22 °C (theory page climate).
const mildSwing = 10

// hotStart is when the hot stretch of a store begins, after filling [s].
const hotStart = 7 * day

// hotDropped says where the hot stretch of the store falls outside the life.
func hotDropped(d *design.Design) string {
	c, end := d.Climate, d.Brief.ShelfLife
	if hasLane(d) || c.HotTime <= 0 || c.Hot <= c.Store || end >= hotStart+c.HotTime {
		return ""
	}
	met := "the pack does not meet it"
	if end > hotStart {
		met = "the pack meets only its beginning"
	}
	return fmt.Sprintf("%s: the hot stretch (climate.hot, %s for %s) begins a week after filling and the shelf life is %s: %s, and highest pressure and loss leave it out; pack.pressure.hot has its pressure, climate.lane places it where you want it",
		quality.EstimatePrefix, unit.Quote(unit.TemperaturePoint, float64(c.Hot), 3), unit.Format(unit.Time, c.HotTime, "h", 3), unit.Format(unit.Time, end, "d", 3), met)
}
