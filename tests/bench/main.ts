import { benchGap } from './gap.ts'
import { benchPass } from './pass.ts'
import { benchSearch } from './search.ts'
import { benchSight } from './sight.ts'
import { benchStartup } from './startup.ts'

console.log(`Node ${process.version}, ${process.platform} ${process.arch}`)
await benchPass()
benchSight()
benchSearch()
benchGap()
await benchStartup()
