package transient

import "golang.org/x/sys/cpu"

// wide is whether the processor takes four numbers in one instruction.
var wide = cpu.X86.HasAVX2

//go:noescape
func arriveWide(out, rows *float64, width int, from *wave, mask, last, n int, weight *wave)

//go:noescape
func leaveWide(to *wave, mask, next, n int, volts *float64, width int, arrives *float64, send, turn *square4)

//go:noescape
func raiseWide(e *extremes, volts *float64, width, n int, mains *wave, first float64)

//go:noescape
func stepsWide(sum, volts, drive *float64, width, n int, in, out *wave)

//go:noescape
func timesWide(out, values, x *float64, columns, groups int)

func arrive(out, rows []float64, width int, from *ring, last, n int, weight *wave) {
	if !wide {
		arriveGo(out, rows, width, from, last, n, weight)
		return
	}
	_, _ = out[4*n-1], rows[(n-1)*width+3]
	arriveWide(&out[0], &rows[0], width, &from.waves[0], from.mask, last, n, weight)
}

func leave(to *ring, next, n int, volts []float64, width int, arrives []float64, send, turn *square4) {
	if !wide {
		leaveGo(to, next, n, volts, width, arrives, send, turn)
		return
	}
	_, _ = volts[(n-1)*width+3], arrives[4*n-1]
	leaveWide(&to.waves[0], to.mask, next, n, &volts[0], width, &arrives[0], send, turn)
}

func (e *extremes) look(volts []float64, width, n int, mains *wave, first int) {
	if !wide {
		e.raiseGo(volts, width, n, mains, first)
		return
	}
	_ = volts[(n-1)*width+3]
	raiseWide(e, &volts[0], width, n, mains, float64(first))
}

func steps(sum, volts, drive []float64, width, n int, in, out *wave) {
	if !wide {
		stepsGo(sum, volts, drive, width, n, in, out)
		return
	}
	_, _, _ = sum[63], volts[(n-1)*width+3], drive[(n-1)*width+3]
	stepsWide(&sum[0], &volts[0], &drive[0], width, n, in, out)
}

func (p *panel) times(out, x []float64) {
	if !wide || len(p.values) == 0 {
		p.timesGo(out, x)
		return
	}
	_, _ = out[p.rows-1], x[p.columns-1]
	timesWide(&out[0], &p.values[0], &x[0], p.columns, p.rows/4)
}
