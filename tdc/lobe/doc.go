// Package lobe asks a cam lobe where it stands: lift readings at crank angles tell where
// it opens and closes at a checking lift, how long it is open, where its centre lies,
// whether it leans, and, beside a card or a healthy engine's curve, whether the cam has
// moved or the lift is off by lash, wear, zero or ratio.
//
// Every angle that it finds is a weighted sum of places on the protractor, so that it can
// be compared with TDC, with marks and with other lobes, and what they share is known.
// Events are crank degrees after the TDC of the lobe's cylinder between the exhaust's
// closing and the inlet's opening; the centre lies within half a turn of it.
package lobe
