import { benchAgain } from './again.ts'
import { benchBursts } from './burst.ts'
import { benchFieldBytes } from './field-bytes.ts'
import { benchFirstPaint } from './first-paint.ts'
import { benchGap } from './gap.ts'
import { benchMarks } from './marks.ts'
import { benchPages } from './pages.ts'
import { benchPapers } from './papers.ts'
import { benchPass } from './pass.ts'
import { benchSearch } from './search.ts'
import { benchSight } from './sight.ts'
import { benchStartup } from './startup.ts'
import { benchStreams } from './streams.ts'

console.log(`Node ${process.version}, ${process.platform} ${process.arch}`)
await benchPass()
benchSight()
benchSearch()
await benchAgain()
benchGap()
await benchPapers()
await benchStartup()
await benchPages()
await benchMarks()
await benchBursts()
await benchFieldBytes()
await benchFirstPaint()
await benchStreams()
