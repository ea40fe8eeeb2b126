package transient

import "math"

// invert replaces a symmetric positive definite n x n matrix, row by row, by
// its inverse, in place (Gauss-Jordan without pivoting, which such a matrix
// does not need). It returns false where the matrix is singular.
func invert(a []float64, n int) bool {
	for p := range n {
		row := a[p*n : (p+1)*n]
		pivot := row[p]
		if !(pivot > tiny) || math.IsInf(pivot, 0) {
			return false
		}
		row[p] = 1
		for j := range row {
			row[j] /= pivot
		}
		for i := range n {
			if i == p {
				continue
			}
			other := a[i*n : (i+1)*n]
			factor := other[p]
			if factor == 0 {
				continue
			}
			other[p] = 0
			for j := range other {
				other[j] -= factor * row[j]
			}
		}
	}
	return true
}

// factorize replaces a symmetric positive definite n x n matrix by its factors
// L D Lᵀ, in place: below the diagonal those of L, on it the inverses of D. It
// returns false where the matrix is singular. Unlike an inverse the factors
// tell small differences between nodes well that float together.
func factorize(a []float64, n int) bool {
	for p := range n {
		pivot := a[p*n+p]
		if !(pivot > tiny) || math.IsInf(pivot, 0) {
			return false
		}
		a[p*n+p] = 1 / pivot
		for i := p + 1; i < n; i++ {
			factor := a[i*n+p] / pivot
			for j := p + 1; j <= i; j++ {
				a[i*n+j] -= factor * a[j*n+p]
			}
		}
		for i := p + 1; i < n; i++ {
			a[i*n+p] /= pivot
		}
	}
	return true
}

// substitute replaces x by the solution for it, by the factors of a matrix.
func substitute(x, factors []float64) {
	n := len(x)
	for i := 1; i < n; i++ {
		row, sum := factors[i*n:i*n+i], x[i]
		for j, l := range row {
			sum -= l * x[j]
		}
		x[i] = sum
	}
	for i := n - 1; i >= 0; i-- {
		v := x[i] * factors[i*n+i]
		for j := i + 1; j < n; j++ {
			v -= factors[j*n+i] * x[j]
		}
		x[i] = v
	}
}

// tiny is a conductance, in S, below which a node counts as hanging on
// nothing.
const tiny = 1e-14
