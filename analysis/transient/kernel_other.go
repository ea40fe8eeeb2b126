//go:build !amd64

package transient

func arrive(out, rows []float64, width int, from *ring, last, n int, weight *wave) {
	arriveGo(out, rows, width, from, last, n, weight)
}

func leave(to *ring, next, n int, volts []float64, width int, arrives []float64, send, turn *square4) {
	leaveGo(to, next, n, volts, width, arrives, send, turn)
}

func (e *extremes) look(volts []float64, width, n int, mains *wave, first int) {
	e.raiseGo(volts, width, n, mains, first)
}

func steps(sum, volts, drive []float64, width, n int, in, out *wave) {
	stepsGo(sum, volts, drive, width, n, in, out)
}

func (p *panel) times(out, x []float64) { p.timesGo(out, x) }
