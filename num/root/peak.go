package root

// Peak returns where f is largest in [a, b], and the value there, by golden
// section until the place is known to width; a <= b, width > 0. f has one peak
// between the ends, or is largest at one of them: with more peaks it finds
// one of them. Of equal values the first counts. Near the top f is flat, so that a
// width below 1e-8 of the place asks for more than doubles hold.
//
// It needs 1.44 log2((b-a)/width) values of f and refuses nothing: where f is
// NaN there, so is the value.
func Peak(f func(float64) float64, a, b, width float64) (at, top float64) {
	const g = 0.6180339887498949 // (√5 - 1)/2
	x, y := b-g*(b-a), a+g*(b-a)
	fx, fy := f(x), f(y)
	for n := 0; b-a > width && n < limit; n++ {
		if fx >= fy {
			b, y, fy = y, x, fx
			x = b - g*(b-a)
			fx = f(x)
		} else {
			a, x, fx = x, y, fy
			y = a + g*(b-a)
			fy = f(y)
		}
	}
	if fx >= fy {
		return x, fx
	}
	return y, fy
}
