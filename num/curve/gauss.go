package curve

// gaussX and gaussW are the nodes on [0, 1] and weights of the Gauss-Legendre
// rule with 8 points, exact for polynomials of degree 15. Tabulated values,
// from memory; checked against monomials in gauss_test.go.
var (
	gaussX = [8]float64{
		0.5 - 0.9602898564975363/2, 0.5 - 0.7966664774136267/2, 0.5 - 0.5255324099163290/2, 0.5 - 0.1834346424956498/2,
		0.5 + 0.1834346424956498/2, 0.5 + 0.5255324099163290/2, 0.5 + 0.7966664774136267/2, 0.5 + 0.9602898564975363/2,
	}
	gaussW = [8]float64{
		0.1012285362903763 / 2, 0.2223810344533745 / 2, 0.3137066458778873 / 2, 0.3626837833783620 / 2,
		0.3626837833783620 / 2, 0.3137066458778873 / 2, 0.2223810344533745 / 2, 0.1012285362903763 / 2,
	}
)
