// Package library is the list of protectors to pick from: those that come with
// the program and those of the user. It knows files and words, no engineering.
//
// An entry is a protector without a place: its id is that of the entry, its
// name says what it is, its leads are those that it is shipped with or that are
// usual for it. Place makes of it a protector that stands on a sheet. Everything
// is in SI units, as in package diagram.
//
// The kinds that come with the program have no maker. Their figures are typical
// and no listing, as each one's note says. They are from memory of the trade's
// specifications, apart from these:
//
//	In 3, 5, 10, 20 kA; Type 1 at least 10 kA   UL 1449, as trade pages state it
//	VPR in its steps from 330 V to 6000 V       UL 1449 table 79.1 (from memory)
//	208Y/120 V: 700 V, between lines 1200 V     public guide specification, section 26 43 13
//	breakers of at least 30 A                   UFC 3-520-01 (2002), 11-3: a 30 A breaker trips above about 25 kA 8/20
//	In, Iimp in their steps                     IEC 61643-11, as a handbook states them
//	Uc at least 1.1 U0, on IT 1.1 U             IEC 60364-5-53 clause 534, as a handbook states it
//	Iimp 25 kA for level I, 12.5 kA for III, IV the same
//	gap of 50 kA from neutral to earth          IEC 60364-5-53 table 534.5 (from memory)
//	lines 0.25 m and earth 0.25 m, 6 or 16 mm²  IEC 60364-5-53 clauses 534.4.8, 534.4.10 (from memory)
//
// Fuses (gG) that let an impulse pass have at least its action integral before
// they melt, by IEC 60269-1 table 7 (from memory): 12.5 kA 10/350 has 39 kA²s
// and 125 A stand 46; 25 kA has 156 kA²s and 250 A stand 250; 20 kA 8/20 has
// 4.9 kA²s and 63 A stand 9; 10 kA has 1.2 kA²s and 32 A stand 1.8. Circuit
// breakers of 40 A and 25 A, the largest fuses, and the largest breakers are
// common practice, no source.
package library
