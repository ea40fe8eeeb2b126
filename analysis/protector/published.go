package protector

// Published returns typical curves of the varistor blocks of panel protectors: P. Kronberger, diploma
// thesis, Institute of High Voltage Engineering, Graz University of
// Technology, 1994/95, as its parameters stand in public simulation libraries.
func Published() []Material {
	const (
		mm = 1e-3
		pF = 1e-12
	)
	return []Material{
		{"block 32 mm, 130 V", 32 * mm, 130, 4400 * pF, 2.3993743, 0.0244237, -0.0006745, 0.0035122},
		{"block 32 mm, 150 V", 32 * mm, 150, 3700 * pF, 2.4639255, 0.0231608, -0.0006838, 0.0037158},
		{"block 32 mm, 275 V", 32 * mm, 275, 2000 * pF, 2.7158393, 0.0245312, -0.0003902, 0.0038091},
		{"block 32 mm, 320 V", 32 * mm, 320, 1700 * pF, 2.7865339, 0.0250465, -0.0002282, 0.0039129},
		{"block 32 mm, 550 V", 32 * mm, 550, 1000 * pF, 3.0383931, 0.0258834, -0.0001100, 0.0037325},
		{"block 40 mm, 150 V", 40 * mm, 150, 4800 * pF, 2.4620502, 0.0222331, -0.0006945, 0.0032469},
		{"block 40 mm, 275 V", 40 * mm, 275, 2700 * pF, 2.7103342, 0.0229461, -0.0004008, 0.0036353},
		{"block 40 mm, 320 V", 40 * mm, 320, 2300 * pF, 2.7834706, 0.0236867, -0.0002420, 0.0034706},
		{"block 40 mm, 420 V", 40 * mm, 420, 1800 * pF, 2.9072617, 0.0238985, -0.0001615, 0.0034613},
		{"block 40 mm, 550 V", 40 * mm, 550, 1400 * pF, 3.0332455, 0.0239408, -0.0001258, 0.0035698},
		{"block 60 mm, 320 V", 60 * mm, 320, 5600 * pF, 2.7865675, 0.0196155, -0.0010111, 0.0029728},
		{"block 80 mm, 320 V", 80 * mm, 320, 11000 * pF, 2.7737848, 0.0150159, -0.0012341, 0.0030911},
	}
}
