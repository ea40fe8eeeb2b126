package waveform

const (
	us = 1e-6 // s
	ns = 1e-9 // s
)

// Voltage1_2x50 returns the open-circuit voltage of the combination wave.
// Constants of IEEE C62.45-2002, from memory.
func Voltage1_2x50() Shape {
	return Shape{Name: "1.2/50", Form: Exponential, Scale: 1.037, Rise: 0.4074 * us, Fall: 68.22 * us, Front: 1.2 * us, Tail: 50 * us}
}

// Current8x20 returns the short-circuit current of the combination wave
// without its undershoot. Constants of IEEE C62.45-2002, from memory.
func Current8x20() Shape {
	return Shape{Name: "8/20", Form: Cubic, Scale: 0.01243 / (us * us * us), Fall: 3.911 * us, Front: 8 * us, Tail: 20 * us}
}

// Ring100kHz returns the 0.5 us - 100 kHz ring wave. Its Front is the rise
// from 10 to 90 %; it has no Tail, each crest is 0.6 of the one before.
// Constants of IEEE C62.45-2002, from memory.
func Ring100kHz() Shape {
	return Shape{Name: "100 kHz ring", Form: Ringing, Scale: 1.590, Rise: 0.533 * us, Fall: 9.788 * us, Frequency: 100e3, Front: 0.5 * us}
}

// Current10x350 returns the current of a first positive lightning stroke, the
// wave of test class I. Constants of IEC 62305-1:2010 annex B, from memory.
func Current10x350() Shape {
	return heidler("10/350", 0.93, 19*us, 485*us, 10*us, 350*us)
}

// Steady returns a voltage that stands while a surge lasts, as the mains does: one
// from the first step of a computation on, and the same to 1e-9 within a second.
func Steady() Shape {
	return Shape{Name: "steady", Form: Exponential, Scale: 1, Rise: 1e-3 * ns, Fall: 1e9}
}

// heidler returns the lightning current of IEC 62305-1 with its correction
// factor k of the crest.
func heidler(name string, k, rise, fall, front, tail float64) Shape {
	return Shape{Name: name, Form: Heidler, Scale: 1 / k, Rise: rise, Fall: fall, Front: front, Tail: tail}
}

// Wave10x1000 returns the long wave, in volts or amperes alike. Constants of
// IEEE C62.45-2002, from memory.
func Wave10x1000() Shape {
	return Shape{Name: "10/1000", Form: Exponential, Scale: 1.019, Rise: 3.827 * us, Fall: 1404 * us, Front: 10 * us, Tail: 1000 * us}
}

// Burst5x50 returns one pulse of an electrical fast transient. Its Front is
// the rise from 10 to 90 %, its Tail the width at half. Constants of IEEE
// C62.45-2002, from memory.
func Burst5x50() Shape {
	return Shape{Name: "5/50 ns", Form: Exponential, Scale: 1.270, Rise: 3.5 * ns, Fall: 55.6 * ns, Front: 5 * ns, Tail: 50 * ns}
}
