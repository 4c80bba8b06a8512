import type { IForbiddenRuleType, IOptions } from 'dependency-cruiser';

declare const rules: { forbidden: IForbiddenRuleType[]; options: IOptions };
export default rules;
