package circuit

// Matrix is a quantity of the conductors of a line, in their order: symmetric,
// and zero beyond the last of them. The voltage of conductor k is the sum of
// its places of row k times the currents of all.
type Matrix [MaxConductors][MaxConductors]float64

// Scaled returns the matrix times a number.
func (a Matrix) Scaled(by float64) Matrix {
	for i := range a {
		for j := range a {
			a[i][j] *= by
		}
	}
	return a
}

// Plus returns the sum of two matrices.
func (a Matrix) Plus(b Matrix) Matrix {
	for i := range a {
		for j := range a {
			a[i][j] += b[i][j]
		}
	}
	return a
}

// Times returns the product of two matrices, which need not be symmetric.
func (a Matrix) Times(b Matrix) (out Matrix) {
	for i := range a {
		for j := range a {
			for k := range a {
				out[i][j] += a[i][k] * b[k][j]
			}
		}
	}
	return out
}

// Inverse returns the inverse for m conductors of a matrix that is positive
// definite (Gauss-Jordan; such a one needs no pivoting).
func (a Matrix) Inverse(m int) Matrix {
	for p := range m {
		pivot := a[p][p]
		a[p][p] = 1
		for j := range m {
			a[p][j] /= pivot
		}
		for i := range m {
			if i == p {
				continue
			}
			factor := a[i][p]
			a[i][p] = 0
			for j := range m {
				a[i][j] -= factor * a[p][j]
			}
		}
	}
	return a
}

// Loop returns what a current shows that goes out on one conductor and comes
// back on another, or by the earth conductor where back is ToEarth.
func (a Matrix) Loop(out, back int) float64 {
	if back == ToEarth {
		return a[out][out]
	}
	return a[out][out] + a[back][back] - 2*a[out][back]
}

// Balanced is a quantity of conductors that are all alike: Own of each, and
// Mutual that all share, as they do the resistance of their return. The voltage
// of conductor k is Own times its own current plus Mutual times the sum of all.
type Balanced struct{ Own, Mutual float64 }

// Scaled returns the quantity times a number.
func (a Balanced) Scaled(by float64) Balanced { return Balanced{a.Own * by, a.Mutual * by} }

// Matrix returns the quantity of m conductors as a matrix.
func (a Balanced) Matrix(m int) (out Matrix) {
	for i := range m {
		for j := range m {
			out[i][j] = a.Mutual
		}
		out[i][i] += a.Own
	}
	return out
}
