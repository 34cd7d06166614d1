/**
 * Cautions, one short text a step. They defer to the maker's safety data sheet first, then the national high-power code
 * and air law, then the range safety officer.
 *
 * Basis: occupational limits for glass fibre of NIOSH (5 mg/m³ total, 3 fibres/cm³) and OSHA table Z-1; sensitisation to
 * epoxies, van Putten et al., Contact Dermatitis 10 (1984) 146, and HSE RR79; acetone, OSHA Chemical Sampling Information;
 * uncontrolled cure, makers' safety notes; proof loading and turning, common practice, no source. All recalled.
 */
export const cautions = {
  order:
    'The maker’s safety data sheet and data sheet for the very product come first; then your national high-power rocketry ' +
    'code and air law; then the fire code and the landowner; then the range safety officer, who has the last word on the day.',
  health: 'Pregnant, asthmatic or already sensitised to epoxy: stop, ask a doctor, no bench work.',
  dust:
    'Glass and epoxy dust harms skin, eyes and lungs. Half mask P100 or FFP3, goggles, taped sleeves; wet-sand or use ' +
    'extraction, never an air gun. Sand only what has cured hard: half-cured dust still sensitises.',
  resin:
    'Sensitisation to epoxy is for life and cannot be foretold. Nitrile gloves, never latex or cotton; change them at once ' +
    'when wetted and every 20 to 30 minutes. Long sleeves, eye protection. On skin: soap or waterless cleaner, never solvent.',
  mixing:
    'Mix to the ratio; never change it to change the speed. Keep to the cup’s limit and spread the resin out. A cup that runs ' +
    'hot stays out of the house: set it outside on bare ground and keep away from its fumes.',
  spill: 'Hardener spilt: no sawdust, no paper shavings. Amine on cellulose heats itself and can catch fire.',
  acetone:
    'Acetone flashes at −18 °C and its vapour creeps along the floor. Doors open, no flame, heater or hot box in the room, ' +
    'wipes into a lidded metal can. Never on skin.',
  needles: 'Cured edges carry glass needles. Gloves and tape before you touch them.',
  turning: 'A wet part on its cradle: two hands, stand clamped.',
  fillets: 'A thick bead can run hot. Stay under the maker’s greatest depth; build up in layers.',
  heat:
    'Never warm it with a hair dryer in a cardboard box, and never unattended or overnight. A box that does not burn, a weak ' +
    'heat source on a thermostat with a second cut-out, a probe on the part, a smoke alarm, an extinguisher; no solvent near.',
  postCure:
    'Heat slowly, about 10 °C an hour, and stay below what the resin stands at present; support the can. Too hot gives off fumes.',
  proof:
    'A loaded fin stores energy. Eye protection, nobody in its plane, a catch block under it, no motor fitted, never body ' +
    'weight. Stop at the first sound that goes on while the load is held.',
  waste: 'Let leftover resin cure outside in a thin layer. Wipes with solvent are hazardous waste.',
  flight:
    'A certified flyer flies it, inspected, with its strength shown for the loads expected and its stability known, within ' +
    'the code’s limits of angle, wind and distance, and only when the range safety officer agrees.',
  record:
    'This is a builder’s record of what was planned and done. It is not a certificate and gives nobody permission to fly.',
} as const
