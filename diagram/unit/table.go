package unit

// The limits of the steps are habits of the trade (common practice, no source):
// a transformer is 1 500 kVA and not 1.5 MVA, a lead has 0.66 µH and not 660 nH.
var (
	voltageSteps = []step{
		{from: 1e6, measure: mega("V"), figures: 4}, {from: 1e4, measure: kilo("V"), figures: 4},
		{from: 0.1, measure: one("V"), figures: 4}, {measure: milli("V"), figures: 4},
	}
	currentSteps = []step{
		{from: 1e4, measure: kilo("A"), figures: 4}, {from: 1e3, measure: kilo("A"), figures: 3, round: true},
		{from: 0.1, measure: one("A"), figures: 4}, {from: 1e-4, measure: milli("A"), figures: 4},
		{measure: micro("A"), figures: 4},
	}
)

var quantities = [...]quantity{
	Length: {
		noun: "length", sums: true, such: "45 ft", iecSuch: "15 m",
		takes:    []measure{foot, inch, metre, centimetre, millimetre, kilometre},
		steps:    []step{{from: foot.worth, measure: foot, figures: 2}, {measure: inch, figures: 3}},
		iecTakes: []measure{metre, centimetre, millimetre, kilometre, foot, inch},
		iecSteps: []step{{from: 0.1, measure: metre, figures: 3}, {measure: millimetre, figures: 2}},
	},
	LeadLength: {
		noun: "length", sums: true, such: "18 in", iecSuch: "450 mm",
		takes:    []measure{inch, foot, millimetre, centimetre, metre},
		steps:    []step{{measure: inch, figures: 3}},
		iecTakes: []measure{millimetre, centimetre, metre, inch, foot},
		iecSteps: []step{{measure: millimetre, figures: 2}},
	},
	Area: {
		noun: "area", such: "4/0", iecSuch: "35 mm²",
		takes: []measure{squareMillimetre, kcmil},
		steps: []step{{measure: squareMillimetre, figures: 3}},
	},
	Voltage: {
		noun:  "voltage",
		takes: []measure{one("V", "volt", "volts"), kilo("V"), milli("V"), mega("V")},
		steps: voltageSteps, such: "480 V", iecSuch: "400 V",
	},
	LargeVoltage: {
		noun:  "voltage",
		takes: []measure{kilo("V"), one("V", "volt", "volts"), mega("V"), milli("V")},
		steps: voltageSteps, such: "6 kV",
	},
	Current: {
		noun:  "current",
		takes: []measure{one("A", "amp", "amps"), kilo("A"), milli("A"), micro("A")},
		steps: currentSteps, such: "100 A",
	},
	LargeCurrent: {
		noun:  "current",
		takes: []measure{kilo("A"), one("A", "amp", "amps"), milli("A"), micro("A")},
		steps: currentSteps, such: "22 kA",
	},
	Power: {
		noun:  "apparent power",
		takes: []measure{kilo("VA"), one("VA"), mega("VA")}, such: "45 kVA",
		steps: []step{
			{from: 1e7, measure: mega("VA"), figures: 4}, {from: 1e3, measure: kilo("VA"), figures: 4},
			{measure: one("VA"), figures: 4},
		},
	},
	Percent: {noun: "percentage", such: "5 %", takes: []measure{percent}, steps: []step{{measure: percent, figures: 3}}},
	Ratio:   {noun: "ratio", such: "8", takes: []measure{plain}, steps: []step{{measure: plain, figures: 4}}},
	Frequency: {
		noun: "frequency", such: "60 Hz", iecSuch: "50 Hz",
		takes: []measure{one("Hz"), kilo("Hz"), mega("Hz"), giga("Hz")},
		steps: []step{
			{from: 1e9, measure: giga("Hz"), figures: 4}, {from: 1e6, measure: mega("Hz"), figures: 4},
			{from: 1e3, measure: kilo("Hz"), figures: 4}, {measure: one("Hz"), figures: 4},
		},
	},
	Resistance: {
		noun: "resistance", such: "0.5 Ω",
		takes: []measure{one("Ω", "ohm", "ohms"), milli("Ω", "ohm"), micro("Ω", "ohm"), kilo("Ω", "ohm"), mega("Ω", "ohm")},
		steps: []step{
			{from: 1e6, measure: mega("Ω"), figures: 4}, {from: 1e3, measure: kilo("Ω"), figures: 4},
			{from: 0.1, measure: one("Ω"), figures: 4}, {from: 1e-4, measure: milli("Ω"), figures: 4},
			{measure: micro("Ω"), figures: 4},
		},
	},
	Lengthwise: {
		noun: "resistance per length", such: "0.05 Ω/1000 ft", iecSuch: "0.2 Ω/km",
		takes:    []measure{ohmPerThousandFeet, ohmPerKilometre, milliohmPerMetre, ohmPerMetre},
		steps:    []step{{measure: ohmPerThousandFeet, figures: 4}},
		iecTakes: []measure{ohmPerKilometre, milliohmPerMetre, ohmPerMetre, ohmPerThousandFeet},
		iecSteps: []step{{measure: ohmPerKilometre, figures: 4}},
	},
	Capacitance: {
		noun: "capacitance", such: "10 nF",
		takes: []measure{one("F"), milli("F"), micro("F"), nano("F"), pico("F")},
		steps: []step{
			{from: 1, measure: one("F"), figures: 4}, {from: 1e-3, measure: milli("F"), figures: 4},
			{from: 1e-6, measure: micro("F"), figures: 4}, {from: 1e-9, measure: nano("F"), figures: 4},
			{measure: pico("F"), figures: 4},
		},
	},
	Inductance: {
		noun: "inductance", such: "1 µH",
		takes: []measure{one("H"), milli("H"), micro("H"), nano("H")},
		steps: []step{
			{from: 0.1, measure: one("H"), figures: 4}, {from: 1e-3, measure: milli("H"), figures: 4},
			{from: 1e-7, measure: micro("H"), figures: 4}, {measure: nano("H"), figures: 4},
		},
	},
	Speed: {
		noun: "speed", such: "150 m/µs",
		takes: []measure{metrePerMicrosecond, footPerMicrosecond, one("m/s")}, // those of waves on conductors
		steps: []step{{from: 1e6, measure: metrePerMicrosecond, figures: 4}, {measure: one("m/s"), figures: 4}},
	},
	Time: {
		noun: "time", such: "20 µs",
		takes: []measure{second, milli("s"), micro("s"), nano("s"), {names: minuteOfHour.names, worth: 60}, {names: hour.names, worth: 3600}},
		steps: []step{
			{from: 1, measure: second, figures: 4}, {from: 1e-3, measure: milli("s"), figures: 4},
			{from: 1e-6, measure: micro("s"), figures: 4}, {measure: nano("s"), figures: 4},
		},
	},
	Energy: {
		noun: "energy", such: "500 J",
		takes: []measure{one("J", "joule", "joules"), milli("J"), kilo("J"), mega("J")},
		steps: []step{
			{from: 1e6, measure: mega("J"), figures: 4}, {from: 1e3, measure: kilo("J"), figures: 4},
			{from: 0.1, measure: one("J"), figures: 4}, {measure: milli("J"), figures: 4},
		},
	},
	Charge: {
		noun: "charge", such: "2 C",
		takes: []measure{one("C", "As"), milli("C", "As"), micro("C", "As"), kilo("C", "As")},
		steps: []step{
			{from: 1e3, measure: kilo("C"), figures: 4}, {from: 0.1, measure: one("C"), figures: 4},
			{from: 1e-4, measure: milli("C"), figures: 4}, {measure: micro("C"), figures: 4},
		},
	},
	FlashDensity: {
		noun: "flash density", such: "3",
		takes: []measure{perSquareKilometre, perSquareMile},
		steps: []step{{measure: perSquareKilometre, figures: 3}},
	},
	Hours: {
		noun: "duration", such: "1.5 h", sums: true,
		takes: []measure{hour, minuteOfHour, secondOfHour},
		steps: []step{
			{from: 1, measure: hour, figures: 3}, {from: minuteOfHour.worth, measure: minuteOfHour, figures: 3},
			{measure: secondOfHour, figures: 3},
		},
	},
	Money: {noun: "sum of money", such: "250", takes: []measure{plain}, steps: []step{{measure: plain, figures: 4}}},
	Count: {noun: "count", such: "3", takes: []measure{plain}, steps: []step{{measure: plain, figures: 4}}},
}
