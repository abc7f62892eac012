// Package gum is uncertainty arithmetic after JCGM 100 and JCGM 101: components,
// the spread that they make together, its 95 % interval, and repeats of one angle.
// It knows no engine.
package gum
