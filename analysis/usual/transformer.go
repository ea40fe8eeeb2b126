package usual

// Transformers in a surge.
const (
	SurgeTransformer     = 75e3 // VA (common practice, no source)
	SurgeImpedance       = 5.0  // per cent
	SurgeImpedanceSource = "three-phase dry units of 15 to 500 kVA have 3 to 6.5 %, from memory"
	SurgeTransformerXR   = 3.0 // from memory
)

// TransformerXRSource is where TransformerXR comes from.
const TransformerXRSource = "usual for transformers of that size; common practice, no source"

const (
	dry     = "low end of what dry transformers of that size have; common practice, no source"
	utility = "low end of a utility's published list, scribd.com/document/277587072"
	metric  = "IEC 60076-5 table 1, from memory; check your edition"
)

// Transformer is what usual figures of a transformer go by.
type Transformer struct {
	Power   float64 // VA
	Single  bool    // of one phase
	Utility bool    // it stands before the supply
}

// Impedance returns the low end of the per cent impedance of such transformers in
// a fault, by the practice of IEC or of NFPA 70.
func (t Transformer) Impedance(iec bool) (percent float64, source string) {
	switch {
	case iec:
		return inBand(t.Power, band{630e3, 4}, band{1250e3, 5}, band{2500e3, 6}, band{beyond, 7}), metric
	case t.Utility && t.Single:
		return inBand(t.Power, band{100e3, 1.5}, band{167e3, 1.8}, band{beyond, 3}), utility
	case t.Utility:
		return inBand(t.Power, band{300e3, 1.6}, band{500e3, 1.8}, band{beyond, 5.75}), utility
	case t.Single:
		return inBand(t.Power, band{15e3, 3}, band{25e3, 3.5}, band{beyond, 5}), dry
	}
	return inBand(t.Power, band{15e3, 3}, band{30e3, 3.5}, band{75e3, 4}, band{150e3, 4.5}, band{beyond, 5}), dry
}

// XR returns their usual X/R in a fault.
func (t Transformer) XR() float64 {
	switch {
	case t.Utility:
		return inBand(t.Power, band{50e3, 1.5}, band{167e3, 2}, band{300e3, 3}, band{500e3, 4}, band{1000e3, 5.5}, band{beyond, 7})
	case t.Single:
		return inBand(t.Power, band{15e3, 1}, band{25e3, 0.8}, band{beyond, 0.6})
	}
	return inBand(t.Power, band{15e3, 0.8}, band{30e3, 1.2}, band{75e3, 1.5}, band{150e3, 2}, band{300e3, 3}, band{500e3, 4}, band{beyond, 6})
}
