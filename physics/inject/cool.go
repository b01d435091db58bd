package inject

import (
	"errors"
	"fmt"
	"math"

	"costrel/num/conduct"
	"costrel/physics/resin"
	"costrel/unit"
)

// Cooling is a wall cooled from both faces.
type Cooling struct {
	Wall        float64          // m
	Diffusivity float64          // m²/s
	Melt        unit.Temperature // at the start, even
	Face        unit.Temperature // of cavity and core, held
}

// DefaultCooling returns the cooling of a wall [m] with the values of the
// cards: melt 280 °C, faces 12 °C, 9e-8 m²/s.
func DefaultCooling(wall float64) Cooling {
	c := deck.Card("cooling")
	return Cooling{Wall: wall, Diffusivity: c.Value("diffusivity"), Melt: unit.Temperature(c.Value("melt")), Face: unit.Temperature(c.Value("wall"))}
}

func (c Cooling) check(op string, eject unit.Temperature) error {
	err := errors.Join(
		within(op, "wall", c.Wall, 0.2e-3, 20e-3, 1e3, "mm"),
		within(op, "diffusivity", c.Diffusivity, 2e-8, 1e-6, 1e6, "mm²/s"),
		within(op, "melt temperature", c.Melt.Celsius(), 200, 320, 1, "°C"),
		within(op, "face temperature", c.Face.Celsius(), 0, 150, 1, "°C"),
	)
	if err != nil {
		return err
	}
	if !(eject > c.Face && eject < c.Melt) {
		return fmt.Errorf("inject: %s: ‹%.4g °C› is not between faces of ‹%.4g °C› and melt of ‹%.4g °C›", op, eject.Celsius(), c.Face.Celsius(), c.Melt.Celsius())
	}
	return nil
}

// ToMean returns the time [s] until the mean of the wall falls to a
// temperature:
//
//	t = h²/(pi² alpha) ln( 8/pi² (T_melt - T_face)/(T - T_face) )
//
// the first term of the series of a plate: within 1 % while the mean is less
// than 0.6 of the way up from face to melt, refused above. Source: BallmanShusman1959.
func (c Cooling) ToMean(t unit.Temperature) (float64, error) {
	return c.time("cooling to a mean", t, 8/(math.Pi*math.Pi))
}

// ToMiddle returns the time [s] until the middle of the wall falls to a
// temperature; as [Cooling.ToMean] with 4/pi for 8/pi², refused where the
// middle has lost less than two fifths of the way.
// Source: BallmanShusman1959.
func (c Cooling) ToMiddle(t unit.Temperature) (float64, error) {
	return c.time("cooling of the middle", t, 4/math.Pi)
}

func (c Cooling) time(op string, t unit.Temperature, k float64) (float64, error) {
	if err := c.check(op, t); err != nil {
		return 0, err
	}
	left := float64(t-c.Face) / float64(c.Melt-c.Face)
	if left > 0.6 {
		return 0, fmt.Errorf("inject: %s: ‹%.4g °C› is reached before the first term of the series holds, below ‹%.4g °C›", op, t.Celsius(), c.Face.Celsius()+0.6*float64(c.Melt-c.Face))
	}
	return c.Wall * c.Wall / (math.Pi * math.Pi * c.Diffusivity) * math.Log(k/left), nil
}

// Profile is a wall on its way, from finite volumes.
type Profile struct {
	Time         float64
	Mean, Middle unit.Temperature
}

// Simulate returns the time [s] until the mean of the wall falls to a
// temperature, by finite volumes with the constant diffusivity, and the wall
// then: the check of [Cooling.ToMean] that needs no first term.
func (c Cooling) Simulate(t unit.Temperature) (Profile, error) {
	if err := c.check("simulated cooling", t); err != nil {
		return Profile{}, err
	}
	s, err := conduct.Constant(1335, c.Diffusivity*1335*1900, 1900)
	if err != nil {
		return Profile{}, err
	}
	return c.march(&s, t)
}

// SimulateResin is [Cooling.Simulate] with the heat capacity of amorphous PET
// over temperature and the conductivity of the grade in place of the constant
// diffusivity. The melt is quenched: no crystallisation.
func (c Cooling) SimulateResin(g resin.Grade, t unit.Temperature) (Profile, error) {
	if err := c.check("simulated cooling", t); err != nil {
		return Profile{}, err
	}
	var law []float64
	for T := 250; T <= 600; T++ {
		h, _, err := resin.Enthalpy(250, unit.Temperature(T))
		if err != nil {
			return Profile{}, err
		}
		law = append(law, h)
	}
	s, err := conduct.Tabulated(g.DensityAmorphous, g.Conductivity, 250, 1, law)
	if err != nil {
		return Profile{}, err
	}
	return c.march(&s, t)
}

// march steps half the wall, insulated in the middle, until the mean is there.
func (c Cooling) march(s *conduct.Stuff, t unit.Temperature) (Profile, error) {
	const cells = 60
	w, err := conduct.NewWall(c.Wall/2, 0, 0, cells, 2)
	if err != nil {
		return Profile{}, err
	}
	v := conduct.NewSolver(w, s, float64(c.Melt))
	v.Outer = conduct.Side{Fixed: true, Fluid: float64(c.Face)}
	// the time grows with the square of the wall: 400 steps a time constant
	step := c.Wall * c.Wall / (math.Pi * math.Pi * c.Diffusivity) / 400
	was, now := float64(c.Melt), 0.0
	for range 400 * 40 {
		if err := v.Run(step, 1); err != nil {
			return Profile{}, fmt.Errorf("inject: simulated cooling: %w", err)
		}
		mean := w.Mean(v.T)
		if mean <= float64(t) {
			x := (was - float64(t)) / (was - mean)
			return Profile{Time: now + x*step, Mean: t, Middle: unit.Temperature(v.T[0])}, nil
		}
		was, now = mean, now+step
	}
	return Profile{}, fmt.Errorf("inject: simulated cooling: ‹%.4g °C› not reached in %.4g s: it is too close to the faces at ‹%.4g °C›", t.Celsius(), now, c.Face.Celsius())
}
