package waveform

// FrontTone is the frequency of the current of a combination wave and of 8/20,
// Hz: it rises for 10 us.
const FrontTone = 25e3

// ToneOf returns the frequency, Hz, at which conductors have about the
// resistance that counts for a wave: that of a ring, or else the one of which a
// quarter period is the time in which the current does what matters. That is
// the rise to its crest (10 us of an 8/20), where the front decides what equipment
// sees; and the fall to half, where the charge decides how long protectors share
// a current: a long wave goes through a whole conductor long before. The front of
// such a wave then has too little resistance, where inductance counts far more.
// Derived; analysis/protector compares it with a wire that carries its skin.
func ToneOf(wave string) float64 {
	const quarter = 0.25
	switch wave {
	case WaveRing:
		return Ring100kHz().Frequency
	case WaveImpulse, WaveLong:
		shape, _ := ShapeOf(wave)
		return quarter / shape.Tail
	case WaveBurst:
		return quarter / Burst5x50().Front
	}
	return FrontTone
}
