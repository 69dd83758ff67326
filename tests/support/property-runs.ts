import fc from 'fast-check'

// One seed for every run, so that a red run can be repeated as it was; PROPERTY_SEED tries others.
fc.configureGlobal({ seed: Number(process.env.PROPERTY_SEED ?? 20261217) })
