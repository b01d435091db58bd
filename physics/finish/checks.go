package finish

import (
	"math"

	"costrel/cite"
)

// Checks returns the published checks of this package.
func Checks() []cite.Check {
	return append(masses(), []cite.Check{
		{
			ID: "finish.mass.28-short", Case: "mass of the short 28 mm neck in its card", Source: "ISBT2006",
			Unit: "g", Ours: of("28-short-csd", func(f Finish) float64 { return f.Mass * 1e3 }), Published: 3.74, Allowed: 0.001, Mark: cite.Regression,
			Note: "reads the card back: guards it against a slip",
		},
		{
			ID: "finish.mass.28-tall", Case: "mass of the tall 28 mm neck in its card", Source: "ISBT2006",
			Unit: "g", Ours: of("28-tall-csd", func(f Finish) float64 { return f.Mass * 1e3 }), Published: 5.05, Allowed: 0.001, Mark: cite.Regression,
			Note: "reads the card back: guards it against a slip",
		},
		{
			ID: "finish.mass.saving", Case: "mass saved by the short 28 mm neck", Source: "ISBT2006",
			Unit: "%", Ours: func() float64 {
				tall := of("28-tall-csd", func(f Finish) float64 { return f.Mass })()
				short := of("28-short-csd", func(f Finish) float64 { return f.Mass })()
				return 100 * (1 - short/tall)
			}, Published: 26, Allowed: 0.5, Mark: cite.Regression,
			Note: "the source of both masses prints it too",
		},
		{
			ID: "finish.mass.saving.trade", Case: "mass saved by the short 28 mm neck against the trade's own case", Source: "Toensmeier2009",
			Unit: "g", Ours: func() float64 {
				tall := of("28-tall-csd", func(f Finish) float64 { return f.Mass })()
				short := of("28-short-csd", func(f Finish) float64 { return f.Mass })()
				return (tall - short) * 1e3
			}, Published: 1.3, Allowed: 0.05, Mark: cite.Independent,
			Note: "printed to a tenth of a gram",
		},
		{
			ID: "finish.geometry.28-short", Case: "mass of the short 28 mm neck from its dimensions", Source: "ISBT2006",
			Unit: "g", Ours: of("28-short-csd", fromGeometry), Published: 3.74, Allowed: 0.15, Relative: true, Mark: cite.Independent,
			Note: "a coarse estimate: chamfers and grooves are left out",
		},
		{
			ID: "finish.geometry.28-tall", Case: "mass of the tall 28 mm neck from its dimensions", Source: "ISBT2006",
			Unit: "g", Ours: of("28-tall-csd", fromGeometry), Published: 5.05, Allowed: 0.15, Relative: true, Mark: cite.Independent,
			Note: "a coarse estimate: chamfers and grooves are left out",
		},
		{
			ID: "finish.turns.650", Case: "turns of the short 28 mm neck", Source: "NeckComparison",
			Unit: "1", Ours: of("28-short-csd", Finish.Turns), Published: 1.81, Allowed: 0.005, Mark: cite.Regression,
			Note: "reads the card back: the travel of 650° over 360°",
		},
		{
			ID: "finish.turns.680", Case: "turns of the short 28 mm neck with its thread extended to the card's high value", Source: "NeckComparison",
			Unit: "1", Ours: of("28-short-csd", func(f Finish) float64 {
				d, _ := f.Card.Get("travel")
				f.Travel = d.High
				return f.Turns()
			}), Published: 1.89, Allowed: 0.005, Mark: cite.Regression,
			Note: "reads the card back: the travel of 680° over 360°",
		},
		{
			ID: "finish.turns.720", Case: "turns of the tall 28 mm neck", Source: "NeckComparison",
			Unit: "1", Ours: of("28-tall-csd", Finish.Turns), Published: 2.00, Allowed: 0.005, Mark: cite.Regression,
			Note: "reads the card back: the travel of 720° over 360°",
		},
		{
			ID: "finish.helix.28-short", Case: "lead angle of the short 28 mm neck", Source: "ThreadLibrary",
			Unit: "°", Ours: of("28-short-csd", func(f Finish) float64 { return f.Helix() * 180 / math.Pi }), Published: 1.908, Allowed: 0.001, Mark: cite.Regression,
			Note: "atan(2.70/(pi 25.8)); dimensions published, angle ours",
		},
		{
			ID: "finish.lift.28-short", Case: "rise per degree of the short 28 mm neck", Source: "ThreadLibrary",
			Unit: "µm", Ours: of("28-short-csd", func(f Finish) float64 { return f.Lift(math.Pi/180) * 1e6 }), Published: 7.5, Allowed: 0.01, Mark: cite.Regression,
			Note: "2.70 mm over 360°",
		},
		{
			ID: "finish.28-400.thread", Case: "thread diameter 28-400 in its card against the mean of the table, 1.068 and 1.088 in", Source: "SPIThreads",
			Unit: "mm", Ours: of("28-400", func(f Finish) float64 { return f.ThreadOD * 1e3 }), Published: 27.381, Allowed: 0.005, Mark: cite.Regression,
			Note: "reads the card back: guards it against a slip",
		},
	}...)
}

// masses are the rows of the necks whose mass is known within a range only. The
// middle of the range is published, half of it allowed.
func masses() []cite.Check {
	const memory = "low confidence, from memory: the range of the trade, the card against its middle"
	out := []cite.Check{{
		ID: "finish.mass.26", Case: "least mass of the 26 mm three-start neck in its card, 1.38 g below the short 28 mm neck", Source: "PackagingNews26",
		Unit: "g", Ours: of("26-still-3start", func(f Finish) float64 { return low(f) * 1e3 }), Published: 3.74 - 1.38, Allowed: 0.005, Mark: cite.Regression,
		Note: "low confidence: a lower pattern than that of the card, which takes 2.6 g for its own",
	}}
	for _, c := range []struct {
		id, card, name string
		from, to       float64 // g
		known          string  // why the dimensions give another mass
	}{
		{"29", "29-25", "29 mm three-start neck, 2.2 to 2.5 g", 2.2, 2.5, ""},
		{"30-low", "30-25-low", "low 30 mm three-start neck, about 2.7 g", 2.6, 2.8, ""},
		{"30-high", "30-25-high", "high 30 mm three-start neck, 3.5 to 4.0 g", 3.5, 4.0, ""},
		{
			"38", "38-3start-hotfill", "38 mm three-start neck, crystallised, 7 to 9 g", 7, 9,
			"the range of masses and the dimensions of this neck are both from memory, and the dimensions give 6.1 g; the card takes the mass: write that of your neck",
		},
	} {
		out = append(out, cite.Check{
			ID: "finish.mass." + c.id, Case: "mass of the " + c.name, Source: "CommonPractice", Unit: "g", Mark: cite.Memory, Note: memory,
			Ours: of(c.card, func(f Finish) float64 { return f.Mass * 1e3 }), Published: (c.from + c.to) / 2, Allowed: (c.to-c.from)/2 + 1e-9,
		}, cite.Check{
			ID: "finish.geometry." + c.id, Case: "from the dimensions of the card: " + c.name, Source: "CommonPractice", Unit: "g", Mark: cite.Memory,
			Ours: of(c.card, fromGeometry), Published: (c.from + c.to) / 2, Allowed: 0.15, Relative: true,
			Note: "a coarse estimate: chamfers and grooves are left out; " + memory, Known: c.known,
		})
	}
	return out
}

// low returns the least mass that the card of a finish gives.
func low(f Finish) float64 {
	d, ok := f.Card.Get("mass")
	if !ok {
		return math.NaN()
	}
	return d.Low
}

func fromGeometry(f Finish) float64 {
	m, err := f.MassFromGeometry(1335)
	if err != nil {
		return math.NaN()
	}
	return m * 1e3
}

// of returns the value of a named finish, or NaN, which fails the check.
func of(name string, value func(Finish) float64) func() float64 {
	return func() float64 {
		f, err := Find(name)
		if err != nil {
			return math.NaN()
		}
		return value(f)
	}
}
