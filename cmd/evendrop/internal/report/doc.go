// Package report writes everything that evendrop prints: answers as text,
// Markdown, JSON and CSV, and the cautions. Text and Markdown round a number to
// its uncertainty; JSON and CSV keep every digit.
package report
