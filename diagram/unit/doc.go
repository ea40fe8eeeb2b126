// Package unit turns SI quantities into text and text into SI quantities, in
// the North American and in the IEC convention.
//
// A quantity is a float64 in the unit its [Dimension] names; the convention is
// a way of writing it and never alters it. There are two ways out and one way
// in:
//
//   - [Format] writes what a person would write on a drawing, at most four
//     significant figures. Thousands are set apart by a no-break space from
//     1 000 up. Parsing it again gives about the same quantity.
//   - [FormatExact] writes what an entry field should hold. Parsing it in the
//     same convention gives the quantity back within 1e-12 of itself, with one
//     exception: an area within 1e-6 of a gauge is written as that gauge.
//     Thousands are not grouped, so that the text is easy to edit.
//   - [Parse] takes what people type.
//
// What Parse takes:
//
//   - Numbers: "1200", "1 200", "1,200", "1,200.5", "1.200,5", "2,5", "1e3",
//     "1/2", "2 1/2", "2-1/2", "2½", with a sign. One comma with one to three digits
//     before it, the first not 0, and exactly three after it groups thousands,
//     in both conventions: "1,200" is 1200, while "1,20", "0,200" and "2,5" have
//     a decimal comma. One full stop is always a decimal point.
//   - Units: any of the dimension, whatever the convention; a number alone is
//     in the unit that [UnitName] gives. Lengths and hours may be sums, larger
//     unit first: 2 ft 2 in, 2' 2 1/2", 2'-2", 1 h 30 min. After whole feet inches
//     below 12 need no mark: 12'6.
//   - Wire sizes: "4/0", "#4", "2 AWG", "250 kcmil", "500 MCM", "35 mm²",
//     "35 sq mm". In the North American convention a number alone is a gauge (36
//     to 1, and 0, 00, 000, 0000) or a kcmil size of the trade (250 to 2000).
//   - Upper and lower case are the same but for milli (m) and mega (M): "22ka"
//     is 22 kA, "1 mV" and "1 MV" differ, and "1 mva" is refused because it is
//     not sure what was meant. u, µ and μ are the same.
//
// [Words] and [Terms] put a text into the words of a convention: ground or earth,
// L-G or L-PE.
//
// Parse returns a finite number or an error, and refuses all but 0 outside
// 1e-30 to 1e30, and text of more than 256 bytes. Its errors begin with the
// text and say what would be right.
// No function panics on any argument; a Convention other than [IEC] is taken
// as [NorthAmerican], and an unknown Dimension as [Ratio] by all but Parse,
// which refuses it. Text for NaN and the infinities is "NaN", "+Inf", "-Inf",
// which Parse does not take.
//
// Sources: wire gauge by the formula of ASTM B258 (Standard Specification for
// Standard Nominal Diameters and Cross-Sectional Areas of AWG Sizes of Solid
// Round Wires Used as Electrical Conductors), its title from memory; kcmil
// sizes of NFPA 70 (NEC), chapter 9, table 9, and 700, 800, 900 and those over
// 1000 of table 8, from memory; metric sizes of IEC 60228, table 1, from memory.
package unit
