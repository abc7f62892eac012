// Package geometry holds typed angles and lengths and the kinematics of the
// slider-crank: crank, connecting rod and piston, with pin and bore offset.
//
// Crank angles grow in the running direction. An angle named phi counts from
// the crank throw lying along the bore; an angle named u counts from piston
// top dead centre (TDC), the throw and rod in one line. Heights count from the
// crank axis along the bore. Lengths are in millimetres, angles in radians,
// and neither leaves this package without its type.
//
// References, by their keys in DEVELOPERS.md: Soylemez, KMODDL, Heywood.
package geometry
