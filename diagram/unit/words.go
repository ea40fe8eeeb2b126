package unit

// EarthWord returns what the convention calls the conducting mass of the
// earth and what is bonded to it: "ground" or "earth".
func EarthWord(c Convention) string {
	if c == IEC {
		return "earth"
	}
	return "ground"
}

// ModeWord returns the name of a protection mode such as "L-G", "N-G", "L-N" or
// "L-L" in the convention: in IEC the protective conductor is PE, so "L-G" is
// "L-PE" and "N-G" is "N-PE". Any other mode is returned as it is.
func ModeWord(mode string, c Convention) string {
	if c != IEC {
		return mode
	}
	switch mode {
	case "L-G":
		return "L-PE"
	case "N-G":
		return "N-PE"
	}
	return mode
}
