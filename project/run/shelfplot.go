package run

import (
	"math"

	"costrel/physics/climate"
	"costrel/physics/permeation"
	"costrel/unit"
)

// plots draws the life over time.
func (s *shelfLife) plots() {
	times := s.life.Times()
	var at, oxygen, cap, water, carbonation []float64
	pressure, temperature := Series{Name: "pack"}, Series{Name: "lane"}
	var total, wall, sorption, growth, headspace, closing, dried []float64
	ref, counted := s.reference()
	for _, t := range s.plotTimes(times) {
		p, err := s.life.At(t)
		if err != nil {
			break
		}
		at = append(at, t)
		pressure.hours(t, float64(p.Gauge), float64(p.CoolGauge), float64(p.WarmGauge))
		temperature.hours(t, float64(p.Temperature), float64(p.Cool), float64(p.Warm))
		oxygen = append(oxygen, p.Ingress/s.d.Brief.Nominal)
		cap = append(cap, p.IngressCap/s.d.Brief.Nominal)
		water = append(water, p.WaterLost)
		carbonation = append(carbonation, p.Carbonation)
		if carbonated(s.d) {
			l, err := s.life.Loss(t, ref)
			if err != nil {
				l = permeation.Loss{Total: math.NaN()}
			}
			total, wall, sorption = append(total, l.Total), append(wall, l.Wall), append(sorption, l.Sorption)
			growth, headspace, closing, dried = append(growth, l.Growth), append(headspace, l.Headspace), append(closing, l.Closure), append(dried, l.Water)
		}
	}
	axis := Axis{Label: "time", Kind: unit.Time, Unit: "weeks"}
	marks := []Mark{{At: s.end, Label: "best before"}}
	if carbonated(s.d) {
		s.plot(Plot{Key: "shelf.carbonation", Title: "Carbonation", X: axis, Y: Axis{Label: "carbonation", Kind: unit.Carbonation, Unit: "vol"}, Marks: marks, Series: append([]Series{{Name: "drink", X: at, Y: carbonation}}, s.pulls()...), Note: s.pullNote()})
		s.plot(Plot{
			Key: "shelf.loss", Title: "Where the carbonation goes", X: axis, Y: Axis{Label: "loss from " + counted, Kind: unit.Fraction, Unit: "%"}, Marks: marks,
			Series: []Series{
				{Name: "total", X: at, Y: total},
				{Name: "through the wall", X: at, Y: wall},
				{Name: "taken up by the wall", X: at, Y: sorption},
				{Name: "into the grown volume", X: at, Y: growth},
				{Name: "closure", X: at, Y: closing, Dashed: true},
				{Name: "into the headspace", X: at, Y: headspace, Dashed: true},
				{Name: "by loss of water", X: at, Y: dried, Dashed: true},
			},
			Note: "The parts add up to the total. Below nothing: gas that the headspace gives back, and what the loss of water makes up for.",
		})
	}
	s.plot(Plot{Key: "shelf.pressure", Title: "Pressure along the lane", X: axis, Y: Axis{Label: "pressure", Kind: unit.PressureGauge}, Marks: marks, Series: []Series{pressure.calm()}, Note: pressure.note()})
	s.plot(Plot{Key: "shelf.oxygen", Title: "Oxygen ingress", X: axis, Y: Axis{Label: "oxygen come in, per litre of drink", Kind: unit.Concentration, Unit: "mg/L"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: oxygen}, {Name: "closure", X: at, Y: cap, Dashed: true}}})
	if !s.pc.Liquid.Law().Ideal {
		s.plot(Plot{Key: "shelf.water", Title: "Water lost", X: axis, Y: Axis{Label: "water", Kind: unit.Mass, Unit: "g"}, Marks: marks, Series: []Series{{Name: "wall and closure", X: at, Y: water}}})
	}
	s.plot(Plot{Key: "shelf.lane", Title: "Climate lane", X: axis, Y: Axis{Label: "temperature", Kind: unit.TemperaturePoint}, Marks: marks, Series: []Series{temperature.calm()}, Note: temperature.note()})
}

// hours adds a point with what it is in the cold and the warm hours of the day.
func (s *Series) hours(x, y, lo, hi float64) {
	s.X, s.Y, s.Lo, s.Hi = append(s.X, x), append(s.Y, y), append(s.Lo, math.Min(lo, y)), append(s.Hi, math.Max(hi, y))
}

// calm is the curve without a band where no hour differs.
func (s *Series) calm() Series {
	if s.note() == "" {
		s.Lo, s.Hi = nil, nil
	}
	return *s
}

// note says what the band of the hours is.
func (s *Series) note() string {
	for i := range s.Lo {
		if s.Lo[i] != s.Y[i] || s.Hi[i] != s.Y[i] {
			return "The band is the day, from its coldest to its warmest hour."
		}
	}
	return ""
}

// pulls are those of the laboratory in the design: as points, and the curve of
// the model at their temperature, for the lane of the design may be another.
func (s *shelfLife) pulls() []Series {
	rows := s.d.Lab.Pulls
	if len(rows) == 0 {
		return nil
	}
	points := Series{Name: "pulls of the laboratory", Points: true}
	for _, r := range rows {
		points.X, points.Y = append(points.X, r.SinceFilling()), append(points.Y, r.Carbonation)
	}
	out := []Series{points}
	c := s.pc
	until := s.end
	for _, t := range points.X {
		until = math.Max(until, t)
	}
	c.Lane = climate.Constant("laboratory", s.d.Lab.Temperature, s.d.Climate.Humidity, 1.01*until)
	options := silentLife // a curve to compare points with
	if s.work.full {
		options = permeation.Options{}
	}
	life, err := c.Run(until, options)
	if err != nil {
		s.problem("shelf", "no curve at the temperature of the pulls: %v", err)
		return out
	}
	curve := Series{Name: "kept at " + unit.Quote(unit.TemperaturePoint, float64(s.d.Lab.Temperature), 4), Dashed: true}
	for i := range plotGrid {
		f := float64(i) / (plotGrid - 1)
		if p, err := life.At(until * f * f); err == nil {
			curve.X, curve.Y = append(curve.X, p.Time), append(curve.Y, p.Carbonation)
		}
	}
	return append(out, curve)
}

func (s *shelfLife) pullNote() string {
	if len(s.d.Lab.Pulls) == 0 {
		return ""
	}
	note := "Each point is a pack opened by the laboratory (lab.pulls), kept at lab.temperature; compare it with the dashed curve, which stands at that temperature all along. Time counts from filling"
	for _, r := range s.d.Lab.Pulls {
		if r.Time == 0 {
			return note + "; pulls of time 0 are the readings after 24 hours and stand at one day, where the fit takes them. The other times are as typed."
		}
	}
	return note + "."
}
