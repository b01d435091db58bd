package unit

// GaugePressure is a pressure above the ambient pressure [Pa]. The trade
// writes it bar(g) or psi(g).
type GaugePressure float64

// AbsPressure is a pressure above vacuum [Pa]. The trade writes it bar(a) or
// psi(a).
type AbsPressure float64

// Temperature is a point on the thermodynamic scale [K].
type Temperature float64

// TemperatureDiff is a difference of two temperatures [K].
type TemperatureDiff float64

// Exact and conventional constants, SI.
const (
	// Atm is the standard atmosphere [Pa]. Exact by definition.
	Atm AbsPressure = 101325
	// ZeroCelsius is 0 °C [K]. Exact by definition.
	ZeroCelsius Temperature = 273.15
	// GasConstant is R [J/(mol K)]. Exact since the 2019 redefinition of the SI.
	GasConstant = 8.31446261815324
	// Gravity is the standard acceleration of free fall [m/s²]. Exact by definition.
	Gravity = 9.80665
)

// Abs returns the absolute pressure [Pa] of a gauge pressure at the given
// ambient pressure.
func (p GaugePressure) Abs(ambient AbsPressure) AbsPressure {
	return AbsPressure(float64(p) + float64(ambient))
}

// Gauge returns the gauge pressure [Pa] of an absolute pressure at the given
// ambient pressure; it is negative under vacuum.
func (p AbsPressure) Gauge(ambient AbsPressure) GaugePressure {
	return GaugePressure(float64(p) - float64(ambient))
}

// Celsius returns the temperature [K] of t degrees Celsius.
func Celsius(t float64) Temperature { return Temperature(t + float64(ZeroCelsius)) }

// Celsius returns the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t - ZeroCelsius) }

// Sub returns the difference t - u [K].
func (t Temperature) Sub(u Temperature) TemperatureDiff { return TemperatureDiff(t - u) }

// Add returns the temperature t + d [K].
func (t Temperature) Add(d TemperatureDiff) Temperature { return t + Temperature(d) }
