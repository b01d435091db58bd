package oven

import (
	"errors"
	"fmt"
	"math"

	"costrel/unit"
)

// Lamps are the lamps of the oven and where they stand. Zone 1 is next to the
// neck; zones follow downwards at even spacing. Filaments lie along the chain.
type Lamps struct {
	Power       float64          // rated, one lamp [W]
	Filament    unit.Temperature // at rated power
	Length      float64          // of the filament [m]
	Pitch       float64          // height between zones [m]
	First       float64          // zone 1 below the ledge [m]
	Distance    float64          // filament to preform axis [m]
	Mirror      float64          // filament to rear reflector [m]
	Reflectance float64          // of the rear reflector
	Floor       float64          // lower reflector below the last zone [m]
	FloorShare  float64          // its reflectance; 0: none
	Cutoff      float64          // wavelength where quartz ends to transmit [m]
	Tube        unit.Temperature // of the quartz
	Radiant     float64          // share of the electric power that is radiated
}

// Air is what the preform exchanges heat with beside the lamps.
type Air struct {
	Oven         unit.Temperature // air at the outer face between first and last lamp
	Surroundings unit.Temperature // that radiate back at long wave, there
	Film         float64          // outer face at full ventilation [W/(m² K)]
	Still        float64          // outer face at none [W/(m² K)]
	Exponent     float64          // Film (ventilation)^Exponent, at least Still
	Bore         unit.Temperature // air in the bore
	Inside       float64          // inner face [W/(m² K)]
	Soak         unit.Temperature // air and surroundings after the last lamp
	SoakFilm     float64          // outer face there [W/(m² K)]
}

// Grid is the resolution.
type Grid struct {
	Slices int     // along the preform, 8..200
	Cells  int     // across the wall, 4..200
	Step   float64 // longest time step [s], 0.005..1
}

// Setup is the oven as set.
type Setup struct {
	Zones       []float64        // power of each lamp zone, neck to tip, share of rated
	Overall     float64          // on top of the zones
	Level       float64          // on top of that: 1 as set; what Scale finds with Power
	Tilt        float64          // zone power changes by 1-Tilt at the neck to 1+Tilt at the tip
	Coupling    float64          // light that arrives over light computed: 1 as computed; what Scale finds with Coupling
	Ventilation float64          // 0..1
	Inlet       unit.Temperature // of the preform
	HeatTime    float64          // first to last lamp, gaps included [s]
	Modules     int              // lamp modules passed
	GapTime     float64          // between two modules [s]
	SoakTime    float64          // last lamp to blow [s]
	ChainPitch  float64          // spacing of the preforms [m], for the electricity of one
	Lamps       Lamps
	Air         Air
	Optics      Optics
	Grid        Grid
}

// Default returns a set-up with every value of the cards, eight zones at half
// power, 25 s of heating and 8 s of soak; rays are focused and cross the bore.
func Default() Setup {
	l, a := deck.Card("lamp"), deck.Card("air")
	return Setup{
		Zones:   []float64{0.60, 0.50, 0.46, 0.46, 0.46, 0.50, 0.56, 0.62},
		Overall: 0.8, Level: 1, Coupling: 1, Ventilation: 0.7, Inlet: unit.Celsius(23),
		HeatTime: 25, Modules: int(a.Value("modules")), GapTime: a.Value("module_gap"), SoakTime: 8, ChainPitch: a.Value("chain"),
		Lamps: Lamps{
			Power: l.Value("power"), Filament: unit.Temperature(l.Value("filament")), Length: l.Value("length"), Pitch: l.Value("pitch"), First: l.Value("first"),
			Distance: l.Value("distance"), Mirror: l.Value("mirror"), Reflectance: l.Value("reflectance"), Floor: l.Value("floor"), FloorShare: l.Value("floor_reflectance"), Cutoff: l.Value("cutoff"),
			Tube: unit.Temperature(l.Value("tube")), Radiant: l.Value("radiant"),
		},
		Air: Air{
			Oven: unit.Temperature(a.Value("air")), Surroundings: unit.Temperature(a.Value("surroundings")), Film: a.Value("film"), Still: a.Value("film_still"), Exponent: a.Value("film_power"),
			Bore: unit.Temperature(a.Value("bore")), Inside: a.Value("film_inside"), Soak: unit.Temperature(a.Value("soak_air")), SoakFilm: a.Value("soak_film"),
		},
		Optics: Optics{Focus: true, Bore: true},
		Grid:   Grid{Slices: 40, Cells: 24, Step: 0.25},
	}
}

// FilmAt returns the heat transfer coefficient of the outer face [W/(m² K)] at
// a ventilation setting in 0..1.
func (a Air) FilmAt(ventilation float64) float64 {
	return math.Max(a.Still, a.Film*math.Pow(ventilation, a.Exponent))
}

// LampTime returns the time in front of lamps [s].
func (s *Setup) LampTime() float64 { return s.HeatTime - float64(s.Modules-1)*s.GapTime }

// Load returns the power of zone i over its rated power: zone, overall, level
// and tilt multiplied.
func (s *Setup) Load(i int) float64 {
	tilt := 0.0
	if n := len(s.Zones); n > 1 {
		tilt = s.Tilt * (2*float64(i)/float64(n-1) - 1)
	}
	return s.Zones[i] * s.Overall * s.Level * (1 + tilt)
}

// FilamentAt returns the temperature of a filament at a load over its rated
// power, T = T_rated load^(1/4): radiation of a grey wire. From memory.
func (l Lamps) FilamentAt(load float64) unit.Temperature {
	return unit.Temperature(float64(l.Filament) * math.Pow(load, 0.25))
}

// check reports every value out of range.
func (s *Setup) check() error {
	var faults []error
	in := func(name string, v, lo, hi float64, u string) {
		if !(v >= lo && v <= hi) {
			faults = append(faults, fmt.Errorf("oven: %s %.4g%s outside %g..%g%s", name, v, u, lo, hi, u))
		}
	}
	celsius := func(name string, t unit.Temperature, lo, hi float64) { in(name, t.Celsius(), lo, hi, " °C") }
	if n := len(s.Zones); n < 1 || n > 24 {
		faults = append(faults, fmt.Errorf("oven: %d zones outside 1..24", n))
	}
	for i, z := range s.Zones {
		in(fmt.Sprintf("power of zone %d", i+1), z*100, 0, 120, " %")
	}
	in("overall power", s.Overall*100, 0, 150, " %")
	in("level", s.Level, 0, 10, "")
	in("tilt", s.Tilt, -0.9, 0.9, "")
	in("coupling", s.Coupling, 0, 10, "")
	in("ventilation", s.Ventilation*100, 0, 100, " %")
	celsius("inlet temperature", s.Inlet, 0, 70)
	in("heating time", s.HeatTime, 0.5, 600, " s")
	in("modules", float64(s.Modules), 1, 60, "")
	in("gap time", s.GapTime, 0, 60, " s")
	in("soak time", s.SoakTime, 0, 120, " s")
	in("spacing of the preforms", s.ChainPitch*1e3, 10, 500, " mm")
	if s.Modules >= 1 && s.LampTime() <= 0.05*s.HeatTime {
		faults = append(faults, fmt.Errorf("oven: %d gaps of %.4g s leave no time of %.4g s for the lamps: shorten the gaps", s.Modules-1, s.GapTime, s.HeatTime))
	}
	l := s.Lamps
	in("rated lamp power", l.Power, 1, 2e4, " W")
	in("filament temperature", float64(l.Filament), 1200, 3300, " K")
	in("filament length", l.Length*1e3, 20, 2000, " mm")
	in("zone spacing", l.Pitch*1e3, 5, 100, " mm")
	in("first zone below the ledge", l.First*1e3, -50, 200, " mm")
	in("filament to axis", l.Distance*1e3, 5, 500, " mm")
	in("filament to reflector", l.Mirror*1e3, 0, 500, " mm")
	in("reflectance", l.Reflectance*100, 0, 100, " %")
	in("lower reflector below the last zone", l.Floor*1e3, 0, 500, " mm")
	in("reflectance of the lower reflector", l.FloorShare*100, 0, 100, " %")
	in("quartz cut-off", l.Cutoff*1e6, 1, 10, " µm")
	in("quartz temperature", float64(l.Tube), 400, 1500, " K")
	in("radiated share", l.Radiant*100, 1, 100, " %")
	a := s.Air
	celsius("oven air", a.Oven, 0, 200)
	celsius("surroundings", a.Surroundings, 0, 400)
	in("heat transfer at full ventilation", a.Film, 0, 1000, " W/(m²·K)")
	in("heat transfer without ventilation", a.Still, 0, 1000, " W/(m²·K)")
	in("exponent of ventilation", a.Exponent, 0.1, 2, "")
	celsius("air in the bore", a.Bore, 0, 200)
	in("heat transfer in the bore", a.Inside, 0, 1000, " W/(m²·K)")
	celsius("air after the last lamp", a.Soak, 0, 200)
	in("heat transfer after the last lamp", a.SoakFilm, 0, 1000, " W/(m²·K)")
	g := s.Grid
	in("slices", float64(g.Slices), 8, 200, "")
	in("cells", float64(g.Cells), 4, 200, "")
	in("time step", g.Step, 0.005, 1, " s")
	return errors.Join(faults...)
}
