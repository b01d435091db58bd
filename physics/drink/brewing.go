package drink

import "math"

// The brewing trade reads its own charts of beer: °F and psi gauge in, volumes
// out. They are here as checks of the water chart, not as models.

const psi = 6894.757293168361 // Pa

// deLange returns the volumes of carbon dioxide in beer at t °F and p psi
// gauge: a fit of a brewing table. Source: DeLangeFit.
func deLange(t, p float64) float64 {
	return (p+14.695)*(0.01821+0.090115*math.Exp(-(t-32)/43.11)) - 0.003342
}

// brewingPolynomial returns psi gauge over beer of v volumes at t °F: the
// polynomial of home brewing, good near 32 to 50 °F only. At 100 °F and 4
// volumes it is 13 psi below the textbook law and 18 below the default: it
// stands here as the warning not to use it for a warm pack.
func brewingPolynomial(t, v float64) float64 {
	return -16.6999 - 0.0101059*t + 0.00116512*t*t + 0.173354*t*v + 4.24267*v - 0.0684226*v*v
}
