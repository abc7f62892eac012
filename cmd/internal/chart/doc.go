// Package chart draws: line charts, dials and trees as SVG, and a plot in plain
// characters for a terminal. It knows numbers and words and no engine.
//
// A picture carries its meaning in words, dashes and shapes first; colour only
// repeats it, so it can be read printed in black and white. It has a title and a
// description for those who listen to it, scales to whatever width it is given,
// takes the fonts that are there, and turns dark where the reader's screen is.
// Names from outside are written as text, whatever they hold.
//
// References, by their keys in DEVELOPERS.md: WCAG22.
package chart
