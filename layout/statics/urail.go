package statics

// URail is a rail bent to a U from one round bar: two arms out from the panel, each
// held fast by its grip, and a bar between their tips that carries goods. Where
// the bar's ends turn the arms twist, which holds the bar's ends back.
type URail struct {
	Arm, Bar float64 // mm
	EI, GJ   float64 // bending and twisting stiffness, N·mm²
}

// Deflection is how far the middle of the bar sinks under total newtons spread
// evenly over it, mm: the arms as cantilevers under half of it each (AISC table
// 3-23, case 22), and the bar between them as a simple beam (case 1) less what its
// end moments lift.
func (u URail) Deflection(total float64) float64 {
	arm := total / 2 * u.Arm * u.Arm * u.Arm / (3 * u.EI)
	bar := 5*total*u.Bar*u.Bar*u.Bar/(384*u.EI) - u.ArmTwist(total)*u.Bar*u.Bar/(8*u.EI)
	return arm + bar
}

// ArmMoment is the bending moment of each arm at the panel, N·mm.
func (u URail) ArmMoment(total float64) float64 { return total / 2 * u.Arm }

// ArmTwist is the torque on each arm, N·mm, which is also the moment at each end
// of the bar. The bar's end turns by WL²/24EI as a simple beam, the moment M
// turns it back by ML/2EI, and the arm follows by Ma/GJ.
func (u URail) ArmTwist(total float64) float64 {
	free := total * u.Bar * u.Bar / (24 * u.EI)
	return free / (u.Arm/u.GJ + u.Bar/(2*u.EI))
}
